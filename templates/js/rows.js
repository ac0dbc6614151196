// What pages about flies around a date share: looking a fly up in the page's data block (states as runs of days,
// chances in thousandths, hours, hooks, dressings), and the small parts that its rows are made of.
(function () {
  'use strict';
  var on = guide.data('on-data'), say = guide.one('[data-hours]').dataset;

  function el(tag, text, className) {
    var e = document.createElement(tag);
    if (text) e.textContent = text;
    if (className) e.className = className;
    return e;
  }
  function link(text, href) {
    var a = el(href ? 'a' : 'span', text);
    if (href) a.href = href;
    return a;
  }
  function svg(tag, attributes) {
    var e = document.createElementNS('http://www.w3.org/2000/svg', tag);
    Object.keys(attributes).forEach(function (k) { e.setAttribute(k, attributes[k]); });
    return e;
  }
  function put(parent) {
    for (var i = 1; i < arguments.length; i++) {
      parent.append(arguments[i]);
    }
    return parent;
  }

  // ---- Looking up ----

  function runAt(fly, day) { return fly.r.findIndex(function (r) { return r[0] <= day && day <= r[1]; }); }
  function isOn(run) { return on.states[run[2]].indexOf('on') === 0; }
  // What build/view packs as Steps.
  function steps(text) {
    return (text.match(/[-+]\d+|./g) || []).map(function (s) { return s[1] ? +s : s === '_' ? 0 : s > 'Z' ? s.charCodeAt(0) - 96 : 64 - s.charCodeAt(0); });
  }
  function chanceOn(fly, at, day) {
    return steps(fly.c[at]).slice(0, day - fly.r[at][0] + 1).reduce(function (sum, s) { return sum + s; }, 0);
  }
  // The days until the fly's next flight; null where it has none. A day in one is not before it.
  function daysUntil(fly, day) {
    var days = (fly.q || []).map(function (q) { return (q[0] - day + 364) % 365 + 1; });
    return days.length ? Math.min.apply(null, days) : null;
  }
  function inFlight(fly, day) {
    return (fly.q || []).some(function (q) { return (day - q[0] + 365) % 365 <= (q[1] - q[0] + 365) % 365; });
  }
  // Minutes that the water's clocks are ahead of UTC on the date.
  function ahead(d, zone) {
    var noon = new Date(Date.UTC(d.getFullYear(), d.getMonth(), d.getDate(), 12)), at = {};
    new Intl.DateTimeFormat('en', { timeZone: zone, hourCycle: 'h23', day: 'numeric', hour: 'numeric', minute: 'numeric' })
      .formatToParts(noon).forEach(function (p) { at[p.type] = +p.value; });
    return at.hour * 60 + at.minute - 720 + (at.day === noon.getUTCDate() ? 0 : 1440);
  }
  // [from, to] in minutes by the water's clock, or words.
  function hoursOn(i, d) {
    var h = on.hours[i], day = guide.dayOf(d), run = h.r.filter(function (r) { return r[0] <= day; }).pop().slice();
    if (run.length < 3) return run[1];
    steps(run[3] || '').forEach(function (s) {
      if ((run[0] += Math.abs(s)) > day) return;
      [1, 2].forEach(function (k) { if (h.a & k) run[k] += s > 0 ? 5 : -5; });
    });
    var shift = h.a ? ahead(d, h.z) : 0;
    return [1, 2].map(function (k) { return (run[k] + (h.a & k ? shift : 0) + 1440) % 1440; });
  }
  function clock(h) {
    function two(n) { return (n < 10 ? '0' : '') + n; }
    if (typeof h === 'string') return h;
    var t = h.map(function (m) { return two(Math.floor(m / 60)) + ':' + two(m % 60); });
    return say.hours.replace('{from}', t[0]).replace('{to}', t[1]);
  }
  function hoursFor(stage, flight) {
    return (stage.h || []).filter(function (h) { return h.f < 0 || flight < 0 || h.f === flight; });
  }
  // The hours of a stage in the flight that speaks for the date: [text, whether they hold at this hour].
  function hoursOf(stage, flight, d) {
    var t = new Date(), holds = false;
    var texts = hoursFor(stage, flight).map(function (h) {
      var at = hoursOn(h.i, d), text = clock(at), zone = on.hours[h.i].z;
      var now = zone && guide.isToday() ? (t.getUTCHours() * 60 + t.getUTCMinutes() + ahead(d, zone) + 1440) % 1440 : null;
      if (now !== null && typeof at !== 'string') holds = holds || (at[0] <= at[1] ? at[0] <= now && now < at[1] : now >= at[0] || now < at[1]);
      if (h.o) text = say.others.replace('{hours}', text).replace('{others}', h.o.map(function (o) { return clock(hoursOn(o, d)); }).join(say.or));
      return (h.x ? h.x + ' ' : '') + text;
    });
    return [texts.join(say.semicolon), holds];
  }
  function tieFor(stage, flight) {
    var i = [flight, -1].concat(flight < 0 ? 0 : []).map(function (f) { return stage.f[f]; }).filter(function (i) { return i >= 0; })[0];
    return on.ties[i];
  }

  // ---- Drawing ----

  // As build/chart/year.go draws the band, at its own height.
  function strip(fly, d, letters) {
    var paths = { f: '', l: '', u: '' };
    for (var i = 0; i < 24;) {
      var k = fly.b[i], to = i;
      while (to < 24 && fly.b[to] === k) to++;
      if (k === 'l') {
        paths.l += 'M' + 13 * i + ' 9.5H' + 13 * to;
        for (var c = i; c < to; c++) paths.l += 'M' + 13 * (c + 0.5) + ' 7.5v4';
      } else paths[k] += 'M' + 13 * i + ' 5h' + 13 * (to - i) + 'v9h-' + 13 * (to - i) + 'z';
      i = to;
    }
    var s = svg('svg', { 'class': 'strip', viewBox: letters ? '0 0 312 26' : '0 0 312 16', 'aria-hidden': 'true' });
    ['f', 'l', 'u'].forEach(function (k) { if (paths[k]) s.appendChild(svg('path', { 'class': k, d: paths[k] })); });
    if (letters) {
      var text = svg('text', { 'class': 'let', x: '13 39 65 91 117 143 169 195 221 247 273 299', y: '24' });
      text.textContent = on.months.map(function (m) { return Array.from(m)[0]; }).join('');
      s.appendChild(text);
    }
    s.appendChild(svg('path', { 'class': 'day', transform: 'translate(' + (26 * guide.place(d)).toFixed(1) + ')', d: 'M0 3l-4-4h8zM0 3v12' }));
    return s;
  }

  // How sure the month's figure is, as a mark with its words.
  function mark(digit) {
    var m = el('i', '', 'bm b' + digit);
    m.setAttribute('role', 'img');
    m.setAttribute('aria-label', say['b' + digit]);
    return m;
  }
  function counted(fly, d) {
    return say.counted.replace('{count}', on.texts[fly.t[d.getMonth()]]).replace('{month}', on.months[d.getMonth()]);
  }
  function from(fly, d, day) {
    return say.from.replace('{date}', guide.words(guide.dateOf((day + daysUntil(fly, day) - 1) % 365 + 1, d)));
  }

  window.rows = { on: on, say: say, el: el, link: link, put: put, runAt: runAt, isOn: isOn, chanceOn: chanceOn, daysUntil: daysUntil, inFlight: inFlight,
    hoursFor: hoursFor, hoursOf: hoursOf, tieFor: tieFor, strip: strip, mark: mark, counted: counted, from: from };
}());
