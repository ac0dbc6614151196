// The page "On this device": what is kept there, and taking or leaving it. The worker does the keeping.
// Classic script; needs kit.js and offline.js before it.
(function () {
  'use strict';
  var kit = window.guideKit, device = window.guideDevice, page = document.getElementById('keep');
  if (!page || !kit || !device) return;
  var top = device.top, said = device.said, list = device.list, register = device.register, registered = device.registered;
  var says = document.getElementById('keep-says'), go = document.getElementById('keep-go'), drop = document.getElementById('keep-drop');
  var choose = document.getElementById('keep-waters'), size = document.getElementById('keep-size');
  var mine = 'guide ' + top + ' ', now = null;

  document.getElementById('keep-missing').hidden = location.hash !== '#missing';
  page.hidden = false;
  if (!device.served) {
    says.textContent = kit.say('keep.from_disk');
    return;
  }
  if (!device.able) {
    says.textContent = kit.say('keep.unable');
    return;
  }

  function megabytes(n) { return kit.say('keep.megabytes', { n: (Math.max(n, 5e4) / 1e6).toFixed(1).replace('.', kit.say('decimal')) }); }

  // The sum of what is kept for the waters ticked, each file once.
  function sum() {
    var take = {}, n = 0;
    (now.waters ? now.core : now.files.map(function (f, i) { return i; })).forEach(function (i) { take[i] = true; });
    chosen().forEach(function (name) {
      now.waters.filter(function (w) { return w.name === name; }).forEach(function (w) { w.files.forEach(function (i) { take[i] = true; }); });
    });
    Object.keys(take).forEach(function (i) { n += now.files[i][1]; });
    return n;
  }
  function chosen() { return now.waters ? kit.all('input:checked', choose).map(function (i) { return i.value; }) : []; }
  function tell() { size.textContent = kit.say('keep.size', { size: megabytes(sum()) }); }

  function notebook() { return caches.open(mine + 'notes'); }
  function choice() {
    return notebook().then(function (c) { return c.match(top + '?choice'); }).then(function (r) { return r ? r.json() : null; });
  }

  function state() {
    return registered().then(function (r) {
      var has = r && r.active;
      says.textContent = kit.say(has ? 'keep.kept' : r && (r.installing || r.waiting) ? 'keep.taking' : 'keep.not_kept');
      drop.hidden = !r;
      go.hidden = !now || Boolean(has) && !now.waters;
      return r;
    });
  }

  function done(r) { // resolves once the worker that is being installed has taken everything, or failed
    var w = r.installing || r.waiting || r.active;
    return new Promise(function (yes, no) {
      (function look() {
        if (w.state === 'activated' || w.state === 'activating') yes(r);
        else if (w.state === 'redundant') no(new Error('not taken'));
        else setTimeout(look, 200);
      }());
    });
  }

  function take() {
    go.disabled = true;
    says.textContent = kit.say('keep.taking');
    said('yes');
    kit.stay();
    var before = now.waters ? notebook().then(function (c) { return c.put(top + '?choice', new Response(JSON.stringify(chosen()))); }) : Promise.resolve();
    before.then(registered).then(function (r) {
      if (!r || !r.active) return register().then(done);
      return r.update().then(function () { // the site may have been replaced: then the newer guide is taken
        return r.installing || r.waiting ? done(r) : r;
      }).then(refill);
    }).then(state, function () {
      return state().then(function () { says.textContent = kit.say('keep.failed'); });
    }).then(function () { go.disabled = false; });
  }

  function refill(r) {
    return new Promise(function (yes, no) {
      var pipe = new MessageChannel();
      pipe.port1.onmessage = function (e) { e.data.done ? yes() : no(new Error(e.data.error)); };
      r.active.postMessage({ guide: 'fill' }, [pipe.port2]);
    });
  }

  function leave() {
    said('no');
    registered().then(function (r) { return r && r.unregister(); }).then(function () { return caches.keys(); }).then(function (names) {
      return Promise.all(names.filter(function (n) { return n.indexOf(mine) === 0; }).map(function (n) { return caches.delete(n); }));
    }).then(state);
  }

  go.addEventListener('click', take);
  drop.addEventListener('click', leave);
  navigator.serviceWorker.ready.then(state); // it may be being taken as this page opens
  list().then(function (l) {
    now = l;
    if (!l.waters) return null;
    return choice().then(function (had) {
      l.waters.forEach(function (w) {
        var n = w.files.reduce(function (s, i) { return s + l.files[i][1]; }, 0);
        var box = kit.make('input', { type: 'checkbox', value: w.name });
        box.checked = Boolean(had && had.indexOf(w.name) >= 0);
        choose.append(kit.make('label', {}, box, ' ' + w.name + ' ', kit.make('small', {}, megabytes(n))));
      });
      choose.hidden = false;
      choose.addEventListener('change', tell);
    });
  }).then(function () {
    tell();
    return state();
  }, function () { return state(); });
}());
