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
  // A line is a dressing on its hook, and the flies it imitates; what has none in the box has a line of its own.
  function answerLine(dd, kind, x, stage, d) {
    var h = hoursOf(stage, x.run[3], d), fly = el('small', x.fly.n + (kind === 'under' ? ' ' + stage.n : stage.x ? ' ' + stage.x : '') + (h[0] ? ' ' + h[0].replace(/:00/g, '') : '') + (h[1] ? ', ' + say.hour : ''));
    if (h[1]) dd.className = 'hour';
    if (kind !== 'under') put(fly, ' ', el('b', guide.percent(x.chance, list)));
    return put(dd, ' ', fly);
  }
  function what(kind, tie) {
    var first = tie.d && tie.d[0];
    if (!first) return put(el('span'), el('em', tie.w || answer.dataset.none), ' ', el('b', tie.k || ''));
    return put(el('span'), link(first.n, first.h), ' ', el('b', first.k || ''), kind === 'under' && first.l ? el('em', ' ' + first.l) : '');
  }
  function answers(shown, d, day) {
    guide.all('[data-k]', answer).forEach(function (block) {
      var kind = block.dataset.k, lines = {}, count = 0, under = false;
      guide.all('dd', block).forEach(function (e) { e.remove(); });
      shown.filter(function (x) { return isOn(x.run); }).forEach(function (x) {
        var stages = (x.fly.s || []).filter(function (s) { return s.k === kind && tieFor(s, x.run[3]); });
        var stage = stages.filter(function (s) { return (tieFor(s, x.run[3]).d || []).length; })[0] || stages[0];
        if (!stage) return;
        var tie = tieFor(stage, x.run[3]), first = tie.d && tie.d[0], key = first ? first.n + '|' + first.k : x.fly.n;
        if (!lines[key]) {
          if (count === 2) return;
          count++;
          lines[key] = block.appendChild(put(el('dd'), what(kind, tie)));
          if (stage.w && !under) {
            block.appendChild(put(el('dd', '', 'why'), el('em', answer.dataset.under), ' ', link(answer.dataset.why, x.fly.h + '#tie')));
            under = true;
          }
        }
        answerLine(lines[key], kind, x, stage, d);
      });
      if (!count) block.appendChild(put(el('dd'), el('em', nextOf(kind, d, day) || answer.dataset.nothing)));
    });
  }
  function nextOf(kind, d, day) {
    var next = null;
    on.flies.forEach(function (f) {
      if (daysUntil(f, day) === null || !(f.s || []).some(function (s) { return s.k === kind; })) return;
      if (!next || daysUntil(f, day) < daysUntil(next, day)) next = f;
    });
    return next && answer.dataset.next.replace('{fly}', next.n).replace('{from}', from(next, d, day));
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
    var day = guide.dayOf(d), shown = [], come = [], past = [];
    on.flies.forEach(function (fly) {
      var at = rows.runAt(fly, day), days = daysUntil(fly, day);
      if (at >= 0) shown.push({ fly: fly, run: fly.r[at], chance: rows.chanceOn(fly, at, day) });
      else if (days !== null) (days < 183 ? come : past).push(fly);
    });
    shown.sort(function (a, b) { return isOn(b.run) - isOn(a.run) || b.chance - a.chance || a.fly.o - b.fly.o; });
    come.sort(function (a, b) { return daysUntil(a, day) - daysUntil(b, day); });
    list.textContent = '';
    shown.forEach(function (x) {
      list.appendChild(isOn(x.run) ? row(x, d) : put.apply(null, [el('li', '', 'side')].concat(head(x, d), [rows.strip(x.fly, d, false)])));
    });
    answers(shown, d, day);
    names(guide.one('.come'), come, d, day);
    names(guide.one('.past'), past);
    guide.one('.rest').hidden = !come.length && !past.length;
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
  document.addEventListener('DOMContentLoaded', function () { guide.one('.onpage .dated').hidden = false; });
}());
