// The page for a missing address, where nobody said at which address the guide stands: looks for the guide's top,
// folder by folder up from the address asked for, and turns the page's links there.
(function () {
  'use strict';
  function turn(top) {
    ['href', 'src'].forEach(function (name) {
      document.querySelectorAll('[' + name + '^="/"]').forEach(function (e) { e.setAttribute(name, top + e.getAttribute(name).slice(1)); });
    });
  }
  function look(folders) {
    var top = folders.join('/') + '/';
    fetch(top + 'manifest.webmanifest').then(function (r) { return r.ok ? r.json() : null; }).catch(function () { return null; }).then(function (found) {
      if (found && top !== '/') turn(top);
      else if (!found && folders.length > 1) look(folders.slice(0, -1));
    });
  }
  document.addEventListener('DOMContentLoaded', function () { look(location.pathname.split('/').slice(0, -1)); });
}());
