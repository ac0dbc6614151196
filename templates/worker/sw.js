// Keeps the guide on the device, one build at a time. A build is taken whole or not at all: every
// file is checked against the build's list (offline.json) before the first page is served from it.
// A page and all it loads come from one build, even while a newer one takes over: each open page is
// remembered with the build it came from, and that build stays until its last page is closed.
'use strict';
var LIST = '{{list}}'; // SHA-256 of offline.json, which lists this build's files with theirs
var BUILD = LIST.slice(0, 16);
var scope = self.registration.scope;
var mine = 'guide ' + scope + ' '; // our caches' names begin so: other guides may live on this host
var notebook = mine + 'notes';

// ---- Taking a build ---------------------------------------------------------------------------

function hex(buffer) {
  return Array.prototype.map.call(new Uint8Array(buffer), function (b) { return (b < 16 ? '0' : '') + b.toString(16); }).join('');
}

// get fetches a file and refuses whatever is not the build's own.
async function get(address, sum) {
  var r = await fetch(new Request(scope + address, { cache: 'no-cache', credentials: 'same-origin' }));
  if (!r.ok) throw new Error(address + ': ' + r.status);
  var body = await r.arrayBuffer();
  if (hex(await crypto.subtle.digest('SHA-256', body)).slice(0, sum.length) !== sum) throw new Error(address + ' is not of this build');
  // A new response: one that was redirected on its way can't answer a navigation.
  return new Response(body, { headers: { 'content-type': r.headers.get('content-type') || 'application/octet-stream', 'x-sum': sum } });
}

async function note(key, value) {
  var c = await caches.open(notebook), url = scope + '?' + encodeURIComponent(key);
  return value === undefined ? c.match(url).then(function (r) { return r ? r.json() : null; }) : c.put(url, new Response(JSON.stringify(value)));
}

// mark notes that this build is in use, by a page or by a worker that is taking it.
function mark(what) { return note('use ' + what, { build: BUILD, at: Date.now() }); }

// wanted lists the files to keep: all, or on a large guide those of the waters chosen.
function wanted(list, choice) {
  if (!list.waters || !choice) return list.files;
  var take = new Set(list.core);
  list.waters.forEach(function (w) { if (choice.indexOf(w.name) >= 0) w.files.forEach(function (i) { take.add(i); }); });
  return list.files.filter(function (f, i) { return take.has(i); });
}

async function fill() {
  await mark('fill ' + BUILD);
  var text = await get('offline.json', LIST), list = await text.json();
  var files = wanted(list, await note('choice')), cache = await caches.open(mine + BUILD);
  var older = [];
  for (var name of await caches.keys()) {
    if (name.indexOf(mine) === 0 && name !== notebook) older.push(await caches.open(name)); // ours too: a fill may go on where it broke off
  }
  async function keep(f) { // [address, size, sum]
    for (var c of older) {
      var had = await c.match(scope + f[0]);
      if (had && had.headers.get('x-sum') === f[2]) return c === cache ? undefined : cache.put(scope + f[0], had);
    }
    return cache.put(scope + f[0], await get(f[0], f[2]));
  }
  var next = 0;
  async function worker() { while (next < files.length) await keep(files[next++]); }
  await Promise.all([1, 2, 3, 4, 5, 6].map(worker));
  var stays = new Set(files.map(function (f) { return scope + f[0]; }));
  for (var r of await cache.keys()) if (!stays.has(r.url)) await cache.delete(r);
}

// tidy lets go of builds that no open page came from. A page that is just opening isn't listed yet, and
// another worker may be taking a newer build: what was noted in the last hour stays. The builds are listed
// before the notes are read: one that is begun in between has its note first, and must not be missed.
async function tidy() {
  var builds = (await caches.keys()).filter(function (name) { return name.indexOf(mine) === 0; });
  var open = new Set((await self.clients.matchAll({ includeUncontrolled: true, type: 'all' })).map(function (c) { return c.id; }));
  var notes = await caches.open(notebook), used = new Set([mine + BUILD, notebook]);
  for (var r of await notes.keys()) {
    var key = decodeURIComponent(new URL(r.url).search.slice(1));
    if (key.indexOf('use ') !== 0) continue;
    var n = await note(key);
    if (n && (open.has(key.slice(4)) || Date.now() - n.at < 3600000)) used.add(mine + n.build);
    else await notes.delete(r);
  }
  for (var name of builds) if (!used.has(name)) await caches.delete(name);
}

self.addEventListener('install', function (e) { e.waitUntil(fill().then(function () { return self.skipWaiting(); })); });
self.addEventListener('activate', function (e) { e.waitUntil(mark('fill ' + BUILD).then(tidy)); });

// A page asks to take or leave waters of the build that is kept.
self.addEventListener('message', function (e) {
  if (!e.data || e.data.guide !== 'fill') return;
  e.waitUntil(fill().then(function () { e.ports[0].postMessage({ done: true }); },
    function (err) { e.ports[0].postMessage({ error: String(err.message || err) }); }));
});

// ---- Serving ----------------------------------------------------------------------------------

async function kept(build, address) {
  if (!await caches.has(mine + build)) return undefined;
  var cache = await caches.open(mine + build);
  return await cache.match(scope + address) || await cache.match(scope + address + '.html');
}

// A page and its build are noted before the page is handed out, so that its parts find the note.
async function page(e, address) {
  var hit = await kept(BUILD, address);
  if (hit) {
    if (e.resultingClientId) await mark(e.resultingClientId);
    e.waitUntil(tidy());
    return hit;
  }
  try {
    return await fetch(e.request);
  } catch (err) {
    return Response.redirect(scope + 'offline.html#missing', 302);
  }
}

async function part(e, address) {
  var from = e.clientId ? await note('use ' + e.clientId) : null;
  var hit = from ? await kept(from.build, address) : undefined;
  if (hit) return hit;
  try {
    return await fetch(e.request);
  } catch (err) {
    return await kept(BUILD, address) || Response.error();
  }
}

self.addEventListener('fetch', function (e) {
  var r = e.request;
  if (r.method !== 'GET' || r.url.indexOf(scope) !== 0) return;
  var path = new URL(r.url).pathname.slice(new URL(scope).pathname.length);
  try { path = decodeURIComponent(path); } catch (err) { return; }
  if (path === 'sw.js' || path === 'offline.json') return;
  if (path === '' || path.slice(-1) === '/') path += 'index.html';
  e.respondWith(r.mode === 'navigate' ? page(e, path) : part(e, path));
});
