// A water's page around the date: what to put on, the flies on the wing, those to come and over.
(function () {
  'use strict';
  var list = guide.one('.flies'), on = rows.on, say = rows.say, el = rows.el, link = rows.link, put = rows.put;
  var isOn = rows.isOn, tieFor = rows.tieFor, hoursOf = rows.hoursOf, daysUntil = rows.daysUntil, from = rows.from;

  function head(x, d) {
    var fly = x.fly, p = put(el('p'), rows.mark(fly.e[d.getMonth()]), ' ' + on.shown[x.run[2]] + ' · ' + rows.counted(fly, d));
    if (fly.u) put(p, ' ', el('span', say.unlisted, 'tag warn'));
    if (fly.v) put(p, say.semicolon, el('small', fly.v));
    var figure = el('b', '', 'pc');
    if (on.states[x.run[2]] !== 'between') {
      var value = el('data', guide.percent(x.chance, list));
      value.value = String(x.chance / 10);
      figure.appendChild(value);
    }
    return [put(el('h3'), link(fly.n, fly.h)), figure, p];
  }

  function stageLine(stage, flight, d) {
    var tie = tieFor(stage, flight), h = hoursOf(stage, flight, d), li = el('li'), first = tie && tie.d && tie.d[0];
    if (!tie && !h[0]) return null;
    var when = stage.k === 'under' ? (first && first.l) || '' : h[0];
    put(li, el('b', stage.n), ' ', el('span', when, when.length > 22 ? 'long' : ''));
    if (h[1]) {
      li.className = 'hour';
      li.children[1].appendChild(el('small', ' ' + say.hour));
    }
    if (first) {
      var cell = el('span', '', 'tie');
      tie.d.forEach(function (t, i) { put(cell, i ? say.semicolon : '', link(t.n, t.h)); if (i && t.k && t.k !== first.k) put(cell, ' ', el('small', t.k)); });
      put(li, ' ', cell, ' ', el('i', first.k || ''));
    } else put(li, ' ', el('em', tie ? tie.w || answer.dataset.none : ''), ' ', el('i', (tie && tie.k) || ''));
    return li;
  }

  function row(x, d) {
    var fly = x.fly, li = el('li', '', 'fly'), tray = el('div', '', 'tray'), size = (fly.z && (fly.z[x.run[3]] || fly.z['-1'])) || [];
    if (fly.i) {
      var img = el('img');
      img.src = fly.i;
      img.alt = '';
      if (size[0]) { img.width = size[0]; img.height = size[1]; }
      put(tray, img, el('small', size[2] || ''));
    }
    var lines = el('ul', '', 'st');
    (fly.s || []).forEach(function (s) { var l = stageLine(s, x.run[3], d); if (l) lines.appendChild(l); });
    put(li, tray, put.apply(null, [el('div', '', 'who')].concat(head(x, d))));
    if (lines.firstChild) li.appendChild(lines);
    return put(li, rows.strip(fly, d, true));
  }

  // ---- The answer ----

  var answer = guide.one('.answer dl');
  // Where a stage with a dressing goes: what is on the water by its hours, what is fished below beside what rises.
  function slotOf(stage, t, flight) {
    if (stage.k !== 'dun') return stage.k;
    if (t && t.s) return 'rise';
    var hours = rows.hoursFor(stage, flight);
    return hours.length && hours[0].e ? 'dusk' : 'dun';
  }
  // What a fly has for a slot: [stage, dressing], one for whom the box holds nothing last.
  function forSlot(slot, x) {
    var found = [];
    (x.fly.s || []).forEach(function (s) {
      var tie = tieFor(s, x.run[3]), list = tie && tie.d && tie.d.length ? tie.d : [null];
      if (tie) list.forEach(function (t, i) { if ((!i || t.s && !list[0].s) && slotOf(s, t, x.run[3]) === slot) found.push([s, t, tie]); });
    });
    return found.filter(function (f) { return f[1]; })[0] || found[0];
  }
  // A line is a dressing on its hook, and the flies it imitates; what has none in the box has a line of its own.
  function answerLine(dd, slot, x, stage, t, d) {
    var h = hoursOf(stage, x.run[3], d), sex = (t && t.x) || stage.x, fly = el('small', x.fly.n + (slot === 'under' || slot === 'rise' && !t.x && stage.k !== 'dun' ? ' ' + stage.n : sex ? ' ' + sex : '') +
      (h[0] ? ' ' + h[0].replace(/:00/g, '') : '') + (h[1] ? ', ' + say.hour : ''));
    if (h[1]) dd.className = 'hour';
    if (slot !== 'under') put(fly, ' ', el('b', guide.percent(x.chance, list)));
    return put(dd, ' ', fly);
  }
  function what(slot, t, tie) {
    if (!t) return put(el('span'), el('em', tie.w || answer.dataset.none), ' ', el('b', tie.k || ''));
    return put(el('span'), link(t.n, t.h), ' ', el('b', t.k || ''), (slot === 'under' || slot === 'rise') && t.l ? el('em', ' ' + t.l) : '');
  }
  function answers(shown, d, day) {
    var on = shown.filter(function (x) { return isOn(x.run); });
    guide.all('[data-k]', answer).forEach(function (block) {
      var slot = block.dataset.k, lines = {}, count = 0, under = false, kept = [];
      guide.all('dd', block).forEach(function (e) { e.remove(); });
      on.forEach(function (x) {
        var f = forSlot(slot, x);
        if (!f) return;
        var stage = f[0], t = f[1], key = t ? t.n + '|' + t.k : x.fly.n;
        if (!t && f[2].w) { kept.push([x, f]); return; }
        if (!lines[key]) {
          if (count === 2) return;
          count++;
          lines[key] = block.appendChild(put(el('dd'), what(slot, t, f[2])));
          if (stage.w && (!t || t.s) && !under) {
            block.appendChild(put(el('dd', '', 'why'), el('em', answer.dataset['under' + stage.w]), ' ', link(answer.dataset.why, x.fly.h + '#tie')));
            under = true;
          }
        }
        answerLine(lines[key], slot, x, stage, t, d);
      });
      if (!count && kept.length) block.appendChild(put(el('dd'), what(slot, null, kept[0][1][2])));
      else if (!count) empty(block, slot, d, day);
      block.hidden = !block.querySelector('dd');
    });
  }
  // A slot without a fly: what is next; while no fly is on, the nymph of the next fly is in the water all the same.
  function empty(block, slot, d, day) {
    var next = nextOf(slot, d, day), there = slot === 'under' && nextOf(slot, d, day, 60), f;
    if (there) f = forSlot('under', { fly: there, run: there.r.filter(isOn)[0] });
    if (f && f[1]) {
      block.appendChild(put(el('dd'), what(slot, f[1], f[2]), ' ', put(el('small'), answer.dataset.there.replace('{fly}', there.n).replace('{stage}', f[0].n))));
    } else if (slot !== 'dusk' && slot !== 'rise') {
      block.appendChild(put(el('dd'), el('em', next ? answer.dataset.next.replace('{fly}', next.n).replace('{from}', from(next, d, day)) : answer.dataset.nothing)));
    }
  }
  function nextOf(slot, d, day, within) {
    var next = null;
    on.flies.forEach(function (f) {
      var days = daysUntil(f, day);
      if (days === null || within && days > within || !f.r.some(function (r) { return isOn(r) && (within ? (forSlot(slot, { fly: f, run: r }) || [])[1] : forSlot(slot, { fly: f, run: r })); })) return;
      if (!next || days < daysUntil(next, day)) next = f;
    });
    return next;
  }

  function names(box, flies, d, day) {
    box.textContent = '';
    flies.forEach(function (f, i) {
      put(box, i ? ', ' : '', link(f.n, f.h));
      if (d) put(box, ' ', el('small', from(f, d, day)));
    });
    if (box.previousElementSibling) box.previousElementSibling.hidden = !flies.length;
  }

  guide.listen(function (d) {
    var day = guide.dayOf(d), shown = [], few = [], come = [], past = [];
    on.flies.forEach(function (fly) {
      var at = rows.runAt(fly, day), days = daysUntil(fly, day);
      if (at >= 0) shown.push({ fly: fly, run: fly.r[at], chance: rows.chanceOn(fly, at, day) });
      else if (rows.inFlight(fly, day)) few.push(fly);
      else if (days !== null) (days < 183 ? come : past).push(fly);
    });
    shown.sort(function (a, b) { return isOn(b.run) - isOn(a.run) || b.chance - a.chance || a.fly.o - b.fly.o; });
    come.sort(function (a, b) { return daysUntil(a, day) - daysUntil(b, day); });
    list.textContent = '';
    shown.forEach(function (x) {
      list.appendChild(isOn(x.run) ? row(x, d) : put.apply(null, [el('li', '', 'side')].concat(head(x, d), [rows.strip(x.fly, d, false)])));
    });
    answers(shown, d, day);
    names(guide.one('.few'), few);
    names(guide.one('.come'), come, d, day);
    names(guide.one('.past'), past);
    guide.one('.rest').hidden = !few.length && !come.length && !past.length;
    var nothing = guide.one('.nothing'), unlooked = guide.nobodyLooked(nothing, d);
    nothing.hidden = shown.length > 0;
    guide.one('.looked', nothing).hidden = unlooked;
    guide.one('.unlooked', nothing).hidden = !unlooked;
  });
  try { 
    localStorage.setItem('guide water', location.href.split(/[?#]/)[0]);
    sessionStorage.setItem('water', guide.one('h1').textContent);
  } catch (e) { /* storage is off */ }
  ['.answer', '#now', '.after'].forEach(function (s) { guide.one(s).hidden = false; });
  // Ahead or behind speaks of the newest reading alone, and for so many days after it.
  function ahead(d) {
    var e = guide.one('.ahead'), p = e && e.dataset.newest.split('-'), age = p && Math.round((d - new Date(p[0], p[1] - 1, +p[2])) / 864e5);
    if (e) e.nextElementSibling.hidden = !(e.hidden = age < 0 || age > +e.dataset.for);
  }
  document.addEventListener('DOMContentLoaded', function () {
    guide.one('.onpage .dated').hidden = false;
    guide.listen(ahead); // it is further down the page
  });
}());
