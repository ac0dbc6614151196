// What to tie for a trip: two dates, and which dressings on which hooks cover what is likely,
// fewest first. The rule is that of species/tying/trip.go; one table of cases
// (testdata/tying-cases.json) runs through both. Classic script; needs kit.js.
(function () {
  'use strict';
  var kit = window.guideKit, settle = kit.settle;

  // list builds a tying list. due: [{id, chance}], box: [{name, for: [id]}], enough: share of the
  // sum at which it stops. Greedy: each pick is the best next one; ties go by name.
  function list(due, box, enough) {
    var sum = 0, covered = 0, open = due.map(function () { return true; }), place = {}, picks = [];
    due.forEach(function (d, i) {
      place[d.id] = i;
      sum += Math.max(0, d.chance);
    });
    var serves = box.map(function (c) {
      var s = due.map(function () { return false; });
      c.for.forEach(function (id) { if (Object.prototype.hasOwnProperty.call(place, id)) s[place[id]] = true; });
      return s;
    });
    while (settle(covered) < settle(enough * sum)) {
      var best = -1, most = 0;
      for (var b = 0; b < box.length; b++) {
        var adds = 0;
        for (var i = 0; i < due.length; i++) if (open[i] && serves[b][i]) adds += Math.max(0, due[i].chance);
        adds = settle(adds);
        if (adds > most || best >= 0 && adds === most && box[b].name < box[best].name) {
          best = b;
          most = adds;
        }
      }
      if (best < 0) break;
      var pick = { name: box[best].name, box: box[best], adds: 0, for: [] };
      due.forEach(function (d, i) {
        if (!open[i] || !serves[best][i]) return;
        open[i] = false;
        pick.adds += Math.max(0, d.chance);
        pick.for.push(d.id);
      });
      covered += pick.adds;
      pick.share = covered / sum;
      picks.push(pick);
    }
    return { picks: picks, sum: sum, covered: covered, short: settle(covered) < settle(enough * sum), open: due.filter(function (d, i) { return open[i]; }).map(function (d) { return d.id; }) };
  }

  function forward(a, b) { return ((b - a) % 365 + 365) % 365; }
  function within(d, a, b) { return forward(a, d) <= forward(a, b); }
  function touch(run, from, to) { return within(from, run[0], run[1]) || within(run[0], from, to); }

  function runAt(runs, day) { return runs.filter(function (r) { return r[0] <= day && day <= r[1]; })[0]; }

  // plan gathers what is due in the days from..to and what covers it, looked up as build/figures/trip.go
  // has it, and builds the list; each pick has its hooks too, largest first.
  function plan(data, from, to) {
    var due = [], box = {}, stages = {}, named = {}, expected = false, middle = (from - 1 + Math.floor(forward(from, to) / 2)) % 365 + 1;
    data.flies.forEach(function (f) {
      if (!f.on.some(function (r) { return touch(r, from, to); })) return;
      var chance = 0, flight = runAt(f.f, middle)[2];
      expected = expected || (f.e || []).some(function (r) { return touch(r, from, to); });
      for (var n = forward(from, to); n >= 0; n--) chance = Math.max(chance, f.c[(from - 1 + n) % 365]);
      f.st.forEach(function (s) {
        due.push({ id: s.id, chance: chance / 1000 });
        stages[s.id] = { fly: f, stage: s };
        named[s.id] = (s.u || []).some(function (k) { return flight < 0 || k === flight; });
        s.d.forEach(function (line) {
          if (flight >= 0 && line[1] !== flight) return;
          var b = box[line[0]] || (box[line[0]] = { dressing: data.dressings[line[0]], name: data.dressings[line[0]].n, for: [], hooks: {}, by: {} });
          if (b.for.indexOf(s.id) < 0) b.for.push(s.id);
          b.by[s.id] = line[3];
          b.hooks[s.id] = line[2] < 0 ? [] : [line[2]];
        });
      });
    });
    var l = list(due, Object.keys(box).map(function (k) { return box[k]; }), data.enough);
    l.picks.forEach(function (p) {
      var seen = [];
      p.for.forEach(function (id) {
        (p.box.hooks[id] || []).forEach(function (h) { if (seen.indexOf(h) < 0) seen.push(h); });
      });
      p.hooks = seen.map(function (h) { return data.hooks[h]; }).sort(function (a, b) { return b.s - a.s; });
    });
    l.stages = stages;
    l.expected = expected;
    var has = function (id) { return named[id] || Object.keys(box).some(function (k) { return box[k].for.indexOf(id) >= 0; }); };
    l.nothing = l.open.filter(function (id) { return !has(id); });
    l.left = l.open.filter(has);
    return l;
  }

  window.guideTrip = { list: list, plan: plan };

  // ---- The page -------------------------------------------------------------------------------

  var page = document.getElementById('trip'), data = kit.data('trip-data');
  if (!page || !data) return;
  var from = document.getElementById('trip-from'), to = document.getElementById('trip-to');
  var says = document.getElementById('trip-says'), out = document.getElementById('trip-list');

  // Flies, each with its stages: "Iron blue (dun, spinner)".
  function flies(ids, stages, by) {
    var order = [], words = new Map(), span = document.createDocumentFragment();
    ids.forEach(function (id) {
      var s = stages[id], how = by && by[id];
      if (!words.has(s.fly)) {
        words.set(s.fly, []);
        order.push(s.fly);
      }
      words.get(s.fly).push(s.stage.w + (how ? ' ' + kit.say(how === 1 ? 'trip.by_group' : 'trip.by_kin') : ''));
    });
    order.forEach(function (f, i) {
      if (i) span.append(kit.say('list.semicolon'));
      span.append(kit.make('a', { href: f.h }, f.n), ' ', kit.make('small', {}, '(' + words.get(f).join(', ') + ')'));
    });
    return span;
  }

  // Real dates: to a law, 29 February is a day of its own.
  function seasons(a, b) {
    kit.all('.season').forEach(function (li) {
      var shut = false;
      for (var d = new Date(a), n = 0; d <= new Date(b) && n < 366; d.setUTCDate(d.getUTCDate() + 1), n++) {
        var day = d.toISOString().slice(5, 10), after = day >= li.dataset.open, until = day <= li.dataset.last;
        shut = shut || !(li.dataset.open <= li.dataset.last ? after && until : after || until);
      }
      kit.one('.shut', li).hidden = !shut;
    });
  }

  function drawing(d) {
    return d.i ? kit.make('img', { src: d.i, width: d.w, height: d.t, alt: '' }) : null;
  }

  function table(l, when) {
    var head = kit.make('tr', {}), body = kit.make('tbody', {});
    ['trip.dressing', 'trip.hooks', 'trip.for', 'trip.share'].forEach(function (k) { head.append(kit.make('th', { scope: 'col' }, kit.say(k))); });
    l.picks.forEach(function (p) {
      var hooks = kit.make('td', {}), share = kit.make('data', { value: Math.round(p.share * 1000) / 10 }, kit.percent(Math.round(p.share * 1000)));
      p.hooks.forEach(function (h, i) { hooks.append(i ? ', ' : '', kit.make('span', { class: 'nowrap' }, h.t)); });
      if (!p.hooks.length) hooks.append(p.box.dressing.k || kit.say('trip.no_hook'));
      body.append(kit.make('tr', {}, kit.make('th', { scope: 'row' }, drawing(p.box.dressing), kit.make('a', { href: p.box.dressing.h }, p.name)),
        hooks, kit.make('td', {}, flies(p.for, l.stages, p.box.by)), kit.make('td', {}, share)));
    });
    var words = kit.say('trip.table', { when: when });
    return kit.make('div', { class: 'scroll', role: 'region', tabindex: '0', 'aria-label': words },
      kit.make('table', { class: 'tying' }, kit.make('caption', {}, words), kit.make('thead', {}, head), body));
  }

  function show() {
    var a = kit.dayOf(from.value), b = kit.dayOf(to.value);
    out.textContent = '';
    if (!a || !b) {
      says.textContent = kit.say('trip.choose');
      return;
    }
    if (to.value < from.value) {
      says.textContent = kit.say('trip.backwards');
      return;
    }
    if ((new Date(to.value) - new Date(from.value)) / 864e5 > 364) b = a === 1 ? 365 : a - 1; // a year and more is every day
    seasons(from.value, to.value);
    var l = plan(data, a, b);
    var when = kit.say('date.range', { from: kit.date(from.value), to: kit.date(to.value) });
    var due = Object.keys(l.stages).length;
    says.textContent = l.picks.length ? kit.say('trip.found', { n: l.picks.length, share: kit.percent(Math.round(l.covered / l.sum * 1000)) })
      : kit.say(due ? 'trip.nothing_serves' : 'trip.nothing_on');
    if (due && !l.expected) out.append(kit.make('p', {}, kit.say('trip.unlikely')));
    if (l.picks.length) out.append(table(l, when));
    if (l.picks.length && l.short) out.append(kit.make('p', {}, kit.say('trip.short', { share: kit.percent(Math.round(l.covered / l.sum * 1000)) })));
    ['nothing', 'left'].forEach(function (k) {
      if (l[k].length) out.append(kit.make('p', {}, kit.say('trip.' + k), ' ', flies(l[k], l.stages)));
    });
    kit.keep('guide-trip', [from.value, to.value]);
  }

  var brought = kit.reader().date, was = kit.kept('guide-trip');
  var today = brought ? new Date(+brought.slice(0, 4), brought.slice(5, 7) - 1, +brought.slice(8)) : new Date();
  if (!brought && was && was[1] >= kit.iso(today)) {
    from.value = was[0];
    to.value = was[1];
  } else {
    from.value = kit.iso(today);
    to.value = kit.iso(new Date(today.getFullYear(), today.getMonth(), today.getDate() + 6));
  }
  page.hidden = false;
  function close() {
    var months = document.getElementById('by-month');
    if (months) months.open = false;
  }
  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', close); // it stands below
  else close();
  from.addEventListener('change', function () {
    if (from.value && to.value < from.value) to.value = from.value;
    show();
  });
  to.addEventListener('change', show);
  document.getElementById('trip-print').addEventListener('click', function () { window.print(); });
  show();
}());
