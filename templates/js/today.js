// The date that a page speaks of: the device's, or the one the reader chose, which travels with them from page
// to page (in the address, so that it can be sent on, and on the device until the tab is closed). Days are 1 to
// 365; 29 February counts with the 28th, but for a law. What a page shows of the date is looked up, never reckoned.
(function () {
  'use strict';
  var before = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
  var lengths = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  var listeners = [], shown = null, form = one('.when');

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
  // A day of the year as a date, the next one from d on.
  function dateOf(day, d) {
    for (var m = 11; before[m] >= day; m--);
    return new Date(d.getFullYear() + (day < dayOf(d) ? 1 : 0), m, day - before[m]);
  }
  // In the guide's own words; the browser's would cost it as long as all the rest.
  function words(d, full) {
    var say = form.dataset, n = d.getDate();
    return say[full ? 'full' : 'day'].replace('{day}', n === 1 ? say.first : n).replace('{month}', say.months.split('|')[d.getMonth()])
      .replace('{year}', d.getFullYear());
  }
  function iso(d) {
    function two(n) { return (n < 10 ? '0' : '') + n; }
    return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate());
  }
  function parse(text) {
    var p = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text || ''), d = p && new Date(+p[1], p[2] - 1, +p[3]);
    return d && iso(d) === text ? d : null;
  }
  function within(day, from, to) { return from <= to ? from <= day && day <= to : day >= from || day <= to; }
  // The next date from d on of a law's day, "02-29", or the day before it; 29 February lies between 28 February and
  // 1 March in every year.
  function lawDay(day, before, d) {
    var year = d.getFullYear() + (day < iso(d).slice(5) ? 1 : 0), m = +day.slice(0, 2), t = new Date(year, m - 1, +day.slice(3) - before);
    return !before && t.getMonth() === m ? new Date(year, m, 0) : t;
  }
  // The half-month, 01a to 12b; and whether nobody looked in it, by an element's list.
  function cellOf(d) { return (d.getMonth() < 9 ? '0' : '') + (d.getMonth() + 1) + (d.getDate() > 15 ? 'b' : 'a'); }
  function nobodyLooked(e, d) { return e.dataset.unlooked.split(' ').indexOf(cellOf(d)) >= 0; }
  // As Words.amount prints a share: never none for a small one, never certain for a large one.
  function percent(thousandths, list) {
    if (thousandths > 0 && thousandths < 5) return list.dataset.under;
    if (thousandths >= 995 && thousandths < 1000) return list.dataset.over;
    return list.dataset.percent.replace('{n}', Math.round(thousandths / 10));
  }
  // The place of the date on an axis of twelve equal months.
  function place(d) { return d.getMonth() + (d.getDate() - 0.5) / lengths[d.getMonth()]; }

  function seasons(d) {
    all('.season').forEach(function (s) {
      var say = s.dataset, open = within(iso(d).slice(5), say.open, say.last), plain = one('.plain', s);
      var until = open ? lawDay(say.last, 0, d) : lawDay(say.open, 1, d);
      plain.textContent = s.closest('[data-open-to]').dataset[open ? 'openTo' : 'shutTo'].replace('{fish}', say.fish).replace('{date}', words(until, true));
      plain.className = 'plain ' + (open ? 'open' : 'shut');
    });
  }
  function charts(d) {
    document.documentElement.style.setProperty('--day', (100 * place(d) / 12).toFixed(2) + '%');
    all('.day').forEach(function (g) {
      g.setAttribute('transform', 'translate(' + (26 * place(d)).toFixed(1) + ')');
      g.removeAttribute('display');
    });
    all('table.year').forEach(function (t) {
      all('.here', t).forEach(function (c) { c.classList.remove('here'); });
      all('tr', t).forEach(function (r) { if (r.cells.length === 12) r.cells[d.getMonth()].classList.add('here'); });
    });
    all('tr.here').forEach(function (r) { r.classList.remove('here'); });
    all('tr[data-cell="' + cellOf(d) + '"], tr[data-month="' + (d.getMonth() + 1) + '"]').forEach(function (r) { r.classList.add('here'); });
    if (window.guideCharts) guideCharts.today(place(d));
  }

  function show(d) {
    shown = d;
    if (form) {
      document.getElementById('d').value = iso(d);
      one('.back-to-today').hidden = iso(d) === iso(new Date());
      seasons(d);
      all('.dw').forEach(function (e) { e.textContent = words(d); });
    }
    charts(d);
    listeners.forEach(function (f) { f(d); });
  }
  function choose(d) {
    var now = iso(d) === iso(new Date()), to = new URL(location.href);
    if (now) to.searchParams.delete('on'); else to.searchParams.set('on', iso(d));
    try {
      if (now) sessionStorage.removeItem('on'); else sessionStorage.setItem('on', iso(d));
      history.replaceState(null, '', to.href);
    } catch (e) { /* storage is off, or the page is opened from disk: the date goes with the links alone */ }
    show(d);
  }
  function chosen() {
    var kept = null;
    try { kept = sessionStorage.getItem('on'); } catch (e) { /* as above */ }
    return parse(new URL(location.href).searchParams.get('on')) || parse(kept) || new Date();
  }
  function travel(e) {
    var a = e.target.closest && e.target.closest('a[href]');
    if (!a || a.origin !== location.origin || a.search || !/\.html$/.test(a.pathname) || iso(shown) === iso(new Date())) return;
    if (a.pathname !== location.pathname) a.search = '?on=' + iso(shown);
  }

  window.guide = {
    all: all, one: one, data: data, dayOf: dayOf, dateOf: dateOf, words: words, nobodyLooked: nobodyLooked, percent: percent,
    place: place, date: function () { return shown; }, isToday: function () { return iso(shown) === iso(new Date()); },
    listen: function (f) {
      listeners.push(f);
      f(shown);
      document.documentElement.dataset.dated = '';
    }
  };

  if (form) {
    form.hidden = false;
    form.addEventListener('submit', function (e) { e.preventDefault(); });
    document.getElementById('d').addEventListener('change', function (e) { var d = parse(e.target.value); if (d) choose(d); });
    all('[data-step]', form).forEach(function (b) {
      b.addEventListener('click', function () { choose(new Date(shown.getFullYear(), shown.getMonth(), shown.getDate() + +b.dataset.step)); });
    });
    one('.back-to-today').addEventListener('click', function () { choose(new Date()); document.getElementById('d').focus(); });
  }
  ['click', 'auxclick'].forEach(function (k) { document.addEventListener(k, travel, true); });
  show(chosen());

  // Parts that fold: closed on a phone but for the one asked for; all open in print.
  function parts() {
    var narrow = matchMedia('(max-width: 45.99rem)').matches && matchMedia('screen').matches;
    all('details.part').forEach(function (p) { if (narrow && location.hash !== '#' + p.id) p.open = false; });
    asked();
  }
  function asked() {
    var e = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    for (; e; e = e.parentElement) if (e.tagName === 'DETAILS') e.open = true;
  }
  window.addEventListener('hashchange', asked);
  var closed = [];
  window.addEventListener('beforeprint', function () {
    document.documentElement.style.setProperty('--head', JSON.stringify(document.title));
    closed = all('details.part:not([open])');
    closed.forEach(function (d) { d.open = true; });
  });
  window.addEventListener('afterprint', function () { closed.forEach(function (d) { d.open = false; }); });

  // The figures of a year: one stop a table, arrows within.
  document.addEventListener('keydown', function (e) {
    var c = e.target, t = c.closest && c.closest('table.year'), step = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -12, ArrowDown: 12 }[e.key];
    if (!t || c.tagName !== 'TD' || !step) return;
    var cells = all('td[tabindex]', t), to = cells[cells.indexOf(c) + step];
    if (to) { e.preventDefault(); c.tabIndex = -1; to.tabIndex = 0; to.focus(); }
  });
  function stops() {
    all('table.year').forEach(function (t) { all('td[tabindex]', t).forEach(function (c, i) { c.tabIndex = i ? -1 : 0; }); });
  }

  // The closer view's script comes when it is first asked for.
  function closers() {
    all('.chart-closer').forEach(function (b) {
      b.hidden = false;
      b.addEventListener('click', function () {
        var script = document.createElement('script');
        script.src = b.dataset.script;
        script.onload = function () { guideCharts.today(place(shown)); b.click(); };
        script.onerror = function () { b.insertAdjacentText('afterend', ' ' + b.dataset.failed); };
        document.head.appendChild(script);
      }, { once: true });
    });
  }
  function rest() { charts(shown); parts(); stops(); closers(); }
  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', rest); else rest();
}());
