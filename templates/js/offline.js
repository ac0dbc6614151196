// This copy of the guide: how old it is, and keeping it on the device. From a server the worker
// (sw.js at the site's root) keeps the whole guide, or on a large one the waters chosen on the page
// "On this device" (keep.js); opened from disk the copy is there already. Classic script.
(function () {
  'use strict';
  var root = document.documentElement;
  var home = document.querySelector('a.home'); // always leads to the front page, at the site's root
  var top = home ? new URL('.', home.href).href : '';
  var served = /^https?:$/.test(location.protocol);
  var able = served && 'serviceWorker' in navigator && 'caches' in window && window.isSecureContext;

  // Months since it was built, once there are two of them.
  function age() {
    var e = document.querySelector('.age'), built = root.dataset.built;
    if (!e || !built) return;
    var b = built.split('-'), now = new Date();
    var months = (now.getFullYear() - b[0]) * 12 + now.getMonth() + 1 - b[1] - (now.getDate() < b[2] ? 1 : 0);
    if (months < 2) return;
    e.textContent = e.dataset.age.replace('{n}', months);
    e.hidden = false;
  }
  age();

  var answer = 'guide-keep ' + top; // yes, no, or nothing yet
  function said(value) {
    try {
      if (value === undefined) return localStorage.getItem(answer);
      localStorage.setItem(answer, value);
    } catch (e) { /* no memory allowed: asked again next time */ }
    return value;
  }

  function list() {
    return fetch(top + 'offline.json', { cache: 'no-cache' }).then(function (r) {
      if (!r.ok) throw new Error('offline.json: ' + r.status);
      return r.json();
    });
  }
  function register() { return navigator.serviceWorker.register(top + 'sw.js', { scope: top, updateViaCache: 'none' }); }
  function registered() { return navigator.serviceWorker.getRegistration(top).then(function (r) { return r && r.scope === top ? r : undefined; }); }

  function keep() {
    if (said() === 'no') return; // the reader may have said so meanwhile
    registered().then(function (r) {
      if (r) return r.update();
      if (sparing && said() !== 'yes') return null;
      return list().then(function (l) { return l.waters && said() !== 'yes' ? null : register(); });
    }).catch(function () { /* no network, or a site that is being replaced: next time */ });
  }

  if (served && top) { // a link in the page would log an error from disk
    var link = document.createElement('link');
    link.rel = 'manifest';
    link.href = top + 'manifest.webmanifest';
    document.head.appendChild(link);
  }
  var sparing = navigator.connection && navigator.connection.saveData;
  if (able && top) {
    window.addEventListener('load', function () { setTimeout(keep, 3000); }); // it fetches the whole guide: the page in hand comes first
  }

  window.guideDevice = { top: top, served: served, able: able, said: said, list: list, register: register, registered: registered };
}());
