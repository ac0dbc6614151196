// A fly's page around the date: what it is doing on each water, or when it is next on; what to tie where.
(function () {
  'use strict';
  var box = guide.one('.answer'), on = rows.on, el = rows.el, link = rows.link, put = rows.put, say = box.dataset;

  // A line for each stage and dressing; waters are named where they don't agree.
  function ties(shown, d) {
    var lines = [], all = shown.length;
    shown.forEach(function (x) {
      (x.fly.s || []).forEach(function (s) {
        var tie = rows.tieFor(s, x.run[3]), first = tie && tie.d && tie.d[0], h = rows.hoursOf(s, x.run[3], d);
        if (!tie) return;
        var key = [s.n, first ? first.n + first.k : tie.w || tie.k].join('|'), line = lines.filter(function (l) { return l.key === key; })[0];
        if (!line) lines.push(line = { key: key, stage: s, tie: tie, first: first, hours: [], waters: [] });
        line.waters.push(x.fly.n);
        var when = s.k === 'under' ? (first && first.l) || '' : h[0];
        if (when && line.hours.indexOf(when) < 0) line.hours.push(when);
      });
    });
    var list = el('ul', '', 'st');
    lines.forEach(function (l) {
      var when = l.hours.join(say.or), li = put(el('li'), el('b', l.stage.n), ' ', el('span', when, when.length > 22 ? 'long' : ''), ' ');
      if (l.first) put(li, put(el('span', '', 'tie'), link(l.first.n, l.first.h)), ' ', el('i', l.first.k || ''));
      else put(li, el('em', l.tie.w || say.none), ' ', el('i', l.tie.k || ''));
      if (l.waters.length < all) li.children[2].append(' ', el('small', l.waters.join(', ')));
      list.appendChild(li);
    });
    return list;
  }

  guide.listen(function (d) {
    var day = guide.dayOf(d), shown = [], next = [], body = guide.one('.doing', box);
    on.flies.forEach(function (fly) {
      var at = rows.runAt(fly, day), days = rows.daysUntil(fly, day);
      if (at >= 0) shown.push({ fly: fly, run: fly.r[at], chance: rows.chanceOn(fly, at, day) });
      if ((at < 0 || !rows.isOn(fly.r[at])) && days !== null) next.push(fly);
    });
    shown.sort(function (a, b) { return rows.isOn(b.run) - rows.isOn(a.run) || b.chance - a.chance; });
    next.sort(function (a, b) { return rows.daysUntil(a, day) - rows.daysUntil(b, day); });
    body.textContent = '';
    shown.forEach(function (x) {
      var p = put(el('p'), link(x.fly.n, x.fly.h), ' ');
      if (on.states[x.run[2]] !== 'between') put(p, el('b', guide.percent(x.chance, box)), ' ');
      put(body, put(p, put(el('small'), rows.mark(x.fly.e[d.getMonth()]), ' ' + on.shown[x.run[2]] + ' · ' + rows.counted(x.fly, d))));
    });
    if (next.length) {
      var p = put(el('p'), el('b', say.next), ' ');
      next.forEach(function (f, i) { put(p, i ? ', ' : '', link(f.n, f.h), ' ', el('small', rows.from(f, d, day))); });
      body.appendChild(p);
    }
    if (!shown.length && !next.length) body.appendChild(el('p', say.nothing));
    body.appendChild(ties(shown.filter(function (x) { return rows.isOn(x.run); }), d));
  });
  box.hidden = false;
}());
