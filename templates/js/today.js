// What is on around the reader's date. The page holds each fly's year as runs and chances; this
// script only looks the device's date up in them, shows what fits, and marks the date on charts
// and tables. Days are 1 to 365; 29 February counts with the 28th.
(function () {
  'use strict';
  var before = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
  var lengths = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

  function all(selector, within) { return Array.prototype.slice.call((within || document).querySelectorAll(selector)); }
  function one(selector, within) { return (within || document).querySelector(selector); }
  function data(id) {
    var e = document.getElementById(id);
    return e ? JSON.parse(e.dataset.json) : null;
  }
  function dayOf(d) {
    var m = d.getMonth(), n = d.getDate();
    return before[m] + (m === 1 && n === 29 ? 28 : n);
  }
  // In the guide's own words; the browser's would cost it as long as all the rest.
  function words(d, say) {
    return say.day.replace('{day}', d.getDate()).replace('{month}', say.months.split('|')[d.getMonth()]);
  }
  function iso(d) {
    function two(n) { return (n < 10 ? '0' : '') + n; }
    return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate());
  }
  function within(day, from, to) { return from <= to ? from <= day && day <= to : day >= from || day <= to; }

  // The half-month, 01a to 12b; and whether nobody looked in it, by an element's list.
  function cellOf(d) { return (d.getMonth() < 9 ? '0' : '') + (d.getMonth() + 1) + (d.getDate() > 15 ? 'b' : 'a'); }
  function nobodyLooked(e, cell) { return e.dataset.unlooked.split(' ').indexOf(cell) >= 0; }

  // Seasons: a notice for each fish that may not be fished for on the date.
  function seasons(day) {
    all('.season').forEach(function (li) {
      var shut = !within(day, +li.dataset.open, +li.dataset.last);
      one('.shut', li).hidden = !shut;
    });
  }

  // As Words.amount prints a share: never none for a small one, never certain for a large one.
  function percent(thousandths, list) {
    if (thousandths > 0 && thousandths < 5) return list.dataset.under;
    if (thousandths >= 995 && thousandths < 1000) return list.dataset.over;
    return Math.round(thousandths / 10) + '\u00a0%';
  }

  function showOnly(card, attribute, value) {
    all('[data-' + attribute + ']', card).forEach(function (e) {
      e.hidden = e.getAttribute('data-' + attribute).split(' ').indexOf(String(value)) < 0;
    });
  }

  function river(on, day, month, cell) {
    var list = one('.cards');
    var shown = [];
    on.flies.forEach(function (fly, i) {
      var card = one('.card[data-fly="' + i + '"]', list);
      var at = fly.r.findIndex(function (r) { return r[0] <= day && day <= r[1]; });
      card.hidden = at < 0;
      if (at < 0) return;
      var run = fly.r[at], chance = 0;
      for (var d = run[0]; d <= day; d++) chance += fly.c[at][d - run[0]];
      var isOn = on.states[run[2]].indexOf('on') === 0;
      var figure = one('.chance', card);
      figure.textContent = '';
      if (on.states[run[2]] !== 'between') {
        var e = document.createElement('data');
        e.value = String(chance / 10);
        e.textContent = percent(chance, list);
        figure.appendChild(e);
      }
      one('.state', card).textContent = on.shown[run[2]];
      card.classList.toggle('aside', !isOn);
      showOnly(card, 'm', month + 1);
      showOnly(card, 'f', run[3]);
      shown.push({ card: card, isOn: isOn, chance: chance, order: fly.o });
    });
    shown.sort(function (a, b) { return (b.isOn - a.isOn) || (b.chance - a.chance) || (a.order - b.order); });
    shown.forEach(function (s) { list.appendChild(s.card); });
    shortList(shown.filter(function (s) { return s.isOn; }));
    list.hidden = shown.length === 0;
    var nothing = one('.nothing'), unlooked = nobodyLooked(nothing, cell);
    nothing.hidden = shown.length > 0;
    one('.looked', nothing).hidden = unlooked;
    one('.unlooked', nothing).hidden = !unlooked;
  }

  // The short list: for each kind of sign on the water, the two likeliest flies that have a
  // dressing, each with its hours, its first dressing, the hook and the level.
  function shortList(shown) {
    var box = one('.short');
    if (!box) return;
    var some = false;
    all('[data-k]', box).forEach(function (line) {
      var dd = one('dd', line), n = 0;
      dd.textContent = '';
      shown.forEach(function (s) {
        var li = n < 2 && all('li[data-k="' + line.dataset.k + '"]', s.card).filter(function (x) { return one('.fit:not([hidden]) a:not(.none)', x); })[0];
        if (!li) return;
        var p = document.createElement('p');
        function say(text, tag) {
          var e = tag ? document.createElement(tag) : document.createTextNode(text);
          if (tag) e.textContent = text;
          p.appendChild(e);
        }
        var hours = one('.at:not([hidden])', li), fit = one('.fit:not([hidden])', li), hook = one('.hook', fit) || one('a + i', fit);
        say(one('.name a', s.card).textContent + '\u00a0' + one('.chance', s.card).textContent, 'b');
        if (hours) say(', ' + hours.textContent);
        say(': ');
        p.appendChild(one('a:not(.none)', fit).cloneNode(true));
        if (hook) say(', ' + hook.textContent);
        if (li.dataset.l) say(' (' + li.dataset.l + ')', 'small');
        dd.appendChild(p);
        n++;
      });
      line.hidden = n === 0;
      some = some || n > 0;
    });
    box.hidden = !some;
  }

  function front(year, day, cell) {
    var list = one('.waters');
    all('.water', list).forEach(function (li) {
      var run = year.waters[+li.dataset.water].r.filter(function (r) { return r[0] <= day && day <= r[1]; })[0];
      var p = one('.now', li);
      p.hidden = false;
      if (!run || !run[2]) { p.textContent = nobodyLooked(li, cell) ? list.dataset.unlooked : list.dataset.none; return; }
      var names = run[3].map(function (i) { return year.names[i]; }).join(', ');
      var more = run[2] - run[3].length;
      p.textContent = names + (more > 0 ? ' ' + list.dataset.more.replace('{n}', more) : '');
    });
  }

  // The date on charts: x = left + month width × (months before + (day − ½) / days of the month).
  function charts(d) {
    var place = d.getMonth() + (d.getDate() - 0.5) / lengths[d.getMonth()];
    all('.chart-today').forEach(function (g) {
      g.setAttribute('transform', 'translate(' + (+g.dataset.left + g.dataset.month * place).toFixed(2) + ')');
      g.removeAttribute('display');
    });
  }

  function tables(d) {
    var cell = 2 * d.getMonth() + (d.getDate() > 15 ? 1 : 0), name = cellOf(d);
    all('tr.here').forEach(function (r) { r.classList.remove('here'); });
    var row = one('tr[data-cell="' + name + '"]');
    if (row) row.classList.add('here');
    var grid = document.getElementById('grid');
    if (!grid) return;
    all('.here', grid).forEach(function (c) { c.classList.remove('here'); });
    var head = grid.tHead.rows[1].cells[cell];
    head.classList.add('here');
    all('tbody tr', grid).forEach(function (r) { if (r.cells.length > 2) r.cells[cell + 1].classList.add('here'); });
    middle(head, grid.parentNode);
  }

  // A wide table shows the date's column when it comes into view; measuring it before would lay out a
  // part of the page that nobody looks at yet.
  var watcher = null;
  function middle(head, box) {
    if (watcher) watcher.disconnect();
    watcher = new IntersectionObserver(function (entries) {
      if (!entries.some(function (e) { return e.isIntersecting; })) return;
      watcher.disconnect();
      box.scrollLeft = Math.max(0, head.offsetLeft - box.clientWidth / 2);
    });
    watcher.observe(box);
  }

  var on = data('on-data'), year = data('front-data');
  var pick = one('.pick'), back = one('.back-to-today');

  var shown = null; // the date

  function show(d, first) {
    var day = dayOf(d);
    shown = d;
    seasons(day);
    charts(d);
    tables(d);
    if (on) river(on, day, d.getMonth(), cellOf(d));
    if (year) front(year, day, cellOf(d));
    var head = one('.dated-head');
    if (head) {
      head.textContent = head.dataset.pattern.replace('{date}', words(d, head.dataset));
      head.hidden = false;
      one('.plain-head').hidden = true;
    }
    if (pick) {
      if (first) pick.value = iso(d);
      back.hidden = iso(d) === iso(new Date());
    }
  }

  if (pick) {
    one('.when').hidden = false;
    pick.addEventListener('change', function () {
      var p = pick.value.split('-');
      if (p.length === 3) show(new Date(+p[0], p[1] - 1, +p[2]), false);
    });
    back.addEventListener('click', function () { show(new Date(), true); pick.focus(); });
  }
  if (on) {
    var cells = one('.by-cell');
    if (cells) cells.open = false;
  }
  show(new Date(), true);
  document.documentElement.dataset.dated = '';

  // A link to a fly opens its part of the page. Printing opens the table of half-months and what else
  // is short; a chart's figures and what a fly's own page holds stay as the reader left them.
  function open() {
    var id = location.hash.slice(1), e = id && document.getElementById(id);
    if (e && e.tagName === 'DETAILS') e.open = true;
  }
  window.addEventListener('hashchange', open);
  open();
  // A water's page and the front page run this as soon as what is on has been read; the rest of them follows.
  if (document.readyState === 'loading') {
    document.addEventListener('DOMContentLoaded', function () {
      charts(shown);
      tables(shown);
      open();
    });
  }
  var closed = [];
  window.addEventListener('beforeprint', function () {
    closed = all('details:not([open])').filter(function (d) { return !d.closest('.bars') && !(d.className === 'fly'); });
    closed.forEach(function (d) { d.open = true; });
  });
  window.addEventListener('afterprint', function () { closed.forEach(function (d) { d.open = false; }); });
}());
