// The page for a missing address, where nobody said at which address the guide stands: looks for the guide's top,
// folder by folder up from the address asked for, and turns the page's links there.
(function () {
  'use strict';
  function turn(top) {
    ['href', 'src'].forEach(function (name) {
      document.querySelectorAll('[' + name + ']').forEach(function (e) {
        var to = e.getAttribute(name);
        if (!/^(#|\/|[a-z]+:)/i.test(to)) e.setAttribute(name, top + to);
      });
    });
  }
  function look(folders, up) {
    var top = folders.join('/') + '/';
    fetch(top + 'manifest.webmanifest').then(function (r) { return r.ok ? r.json() : null; }).catch(function () { return null; }).then(function (found) {
      if (found && up) turn(top);
      else if (!found && folders.length > 1) look(folders.slice(0, -1), up + 1);
    });
  }
  if (location.protocol !== 'file:') document.addEventListener('DOMContentLoaded', function () { look(location.pathname.split('/').slice(0, -1), 0); });
}());
