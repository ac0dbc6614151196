// The sieve: tick what you see and measure, in any order. Flies that disagree sink, none vanishes, what agrees and the
// most useful next question stand first, and each tick takes itself back. A fly is judged in each of its forms, and shown
// in the best. The question is that of species/key/couplets.go over the features; tests hold the two together. Classic
// script; needs kit.js.
(function () {
  'use strict';
  var kit = window.guideKit, settle = kit.settle, MARGIN = 0.5;

  // ---- The reckoning --------------------------------------------------------------------------

  function chanceOf(fly) { return fly.chance > 0 && fly.chance < Infinity ? fly.chance : 0; }

  function bits(weights) {
    var total = 0, h = 0;
    weights.forEach(function (w) { total += w; });
    weights.forEach(function (w) { if (w > 0) h -= w / total * Math.log2(w / total); });
    return { h: h, w: total };
  }

  // worth reckons asking whether a character c has state s; null where a side doesn't get smaller. As a last resort one
  // side may keep all, if those that go both ways do so by what is known of them.
  function worth(left, ids, c, s, set, last) {
    var sides = [{}, {}, {}], n = [0, 0], total = 0, memory = 0, known = true;
    function add(side, m, w) { sides[side][m.fly.href] = (sides[side][m.fly.href] || 0) + w; }
    left.forEach(function (m) {
      var states = m.form.s[c] || [], here = states.indexOf(s) >= 0, rest = states.some(function (x) { return x !== s; });
      total += m.weight;
      if ((m.form.m || []).indexOf(c) >= 0) memory += m.weight;
      add(2, m, m.weight);
      if (here !== rest) {
        add(here ? 0 : 1, m, m.weight);
        n[here ? 0 : 1]++;
      } else {
        known = known && states.length > 0;
        [0, 1].forEach(function (side) {
          add(side, m, m.weight / 2);
          n[side]++;
        });
      }
    });
    var all = left.length;
    if (Math.min(n[0], n[1]) === all || Math.max(n[0], n[1]) === all && !(last && known) || !total) return null;
    var b = sides.map(function (side) { return bits(ids.map(function (id) { return side[id] || 0; })); });
    var gain = settle(b[2].h - (b[0].w * b[0].h + b[1].w * b[1].h) / (b[0].w + b[1].w));
    return gain > 0 ? { gain: gain, score: settle(gain * (1 - set.memory * memory / total)) } : null;
  }

  // ask finds the character to ask about next for the forms left, of those not yet done: of the easiest way of seeing that
  // gains enough, of the best the first in the order in which one looks; null for none.
  function ask(characters, left, done, set) {
    var ids = [];
    left.forEach(function (m) { if (ids.indexOf(m.fly.href) < 0) ids.push(m.fly.href); });
    if (ids.length < 2) return null;
    function candidates(fits, last) {
      var all = [];
      characters.forEach(function (ch, c) {
        if (done(c) || !fits(function (m) { return m.form.a.indexOf(c) >= 0; })) return;
        var best = null;
        ch.states.forEach(function (_, s) {
          var k = worth(left, ids, c, s, set, last);
          if (k && (!best || k.score > best.score)) best = k;
        });
        if (best) all.push({ c: c, needs: ch.needs, place: ch.place, gain: best.gain, score: best.score });
      });
      return all;
    }
    function each(test) { return left.every(test); }
    function any(test) { return left.some(test); }
    var all = [];
    [[each, false], [each, true], [any, false], [any, true]].forEach(function (way) {
      if (!all.length) all = candidates(way[0], way[1]);
    });
    if (!all.length) return null;
    function best(needs, what) {
      return all.reduce(function (top, k) { return k.needs === needs ? Math.max(top, k[what]) : top; }, 0);
    }
    var top = Math.max(best(0, 'gain'), best(1, 'gain')), need = 2;
    if (top > 0) need = settle(best(0, 'gain') - set.easy * top) >= 0 ? 0 : 1;
    var score = best(need, 'score');
    var near = all.filter(function (k) { return k.needs === need && settle(k.score - set.near * score) >= 0; });
    near.sort(function (a, b) { return a.place - b.place; });
    return characters[near[0].c];
  }

  // fitsLength reports whether a length in mm lies within one of the ranges, or as near as one measures.
  function fitsLength(ranges, mm) {
    return ranges.some(function (l) { return settle(Math.max(l[0] - mm, mm - l[1]) - MARGIN) <= 0; });
  }

  // judge holds one form against the ticks and a length of the body (part 0) or overall (1); 0 mm for none. A length is
  // compared with those measured alike alone.
  function judge(form, ticks, length) {
    var p = { form: form, disagrees: 0, agrees: 0, against: [] };
    function count(agrees, what) {
      if (agrees) p.agrees++;
      else {
        p.disagrees++;
        p.against.push(what);
      }
    }
    Object.keys(ticks).forEach(function (c) {
      var states = form.s[c] || [];
      if (ticks[c].length && states.length) count(states.some(function (s) { return ticks[c].indexOf(s) >= 0; }), { c: Number(c), states: states });
    });
    var ranges = form.l[length.part];
    if (length.mm > 0 && ranges.length) count(fitsLength(ranges, length.mm), { length: ranges });
    return p;
  }

  // sieve ranks the flies, each in its best form, and names the character to ask about next, '' for none; left are the
  // forms that agree best of all.
  //   characters: [{name, states, needs, place}], ticks: {character's place: [state's place]}, length: {mm, part},
  //   flies: [{href, name, chance, f: [{n, s: {character: [state]}, a: [character], m: [character], l: [[[low, high]], …]}]}],
  //   unseen: {place of a character that the reader can't see: true}
  function sieve(characters, flies, ticks, length, set, unseen) {
    var fewest = Infinity, judged = [];
    var order = flies.map(function (fly) {
      var best = { form: null, disagrees: 0, agrees: 0, against: [], forms: [] };
      fly.f.forEach(function (form, i) {
        var p = judge(form, ticks, length), better = p.disagrees - best.disagrees || best.agrees - p.agrees;
        p.fly = fly;
        judged.push(p);
        if (!i || better < 0) {
          best = p;
          best.forms = [];
        }
        if (!i || better <= 0) best.forms.push(form);
      });
      fewest = Math.min(fewest, best.disagrees);
      best.fly = fly;
      return best;
    });
    var left = judged.filter(function (p) { return p.disagrees === fewest; }), forms = {};
    left.forEach(function (p) { forms[p.fly.href] = (forms[p.fly.href] || 0) + 1; });
    left.forEach(function (p) { p.weight = (chanceOf(p.fly) + set.base) / forms[p.fly.href]; });
    var next = ask(characters, left, function (c) { return (ticks[c] || []).length || unseen && unseen[c]; }, set);
    function less(a, b) { return a < b ? -1 : a > b ? 1 : 0; }
    order.sort(function (a, b) {
      return a.disagrees - b.disagrees || b.agrees - a.agrees || settle(chanceOf(b.fly)) - settle(chanceOf(a.fly)) ||
        less(a.fly.name, b.fly.name) || less(a.fly.href, b.fly.href);
    });
    return { order: order, next: next ? next.name : '', fewest: flies.length ? fewest : 0, left: left };
  }

  // unpack reads what the page packs: the chances of each day in thousandths, and what is known of each form.
  function unpack(data) {
    data.flies.forEach(function (fly) {
      fly.c = fly.c.map(function (runs) {
        if (!runs) return null;
        var days = [], day = 0;
        for (var i = 0; i < 365; i++) days.push(0);
        runs.forEach(function (r) {
          if (typeof r === 'number') {
            day = r - 1;
            return;
          }
          for (var k = 0, now = 0; k < r.length; k++) {
            var code = r.charCodeAt(k);
            if (code > 126) code -= 34;
            if (code - 78 > 1000) code -= 2001;
            now += code - 78;
            days[day++] = now;
          }
        });
        return days;
      });
      fly.f.forEach(function (form) {
        form.l = form.l || fly.f[0].l;
        form.s = {};
        form.a = [];
        form.m = [];
        fly.f[0].v.forEach(function (v, c) {
          if (form.d && c in form.d) v = form.d[c];
          var states = [];
          for (var s = 0; v >> s + 2; s++) if (v >> s + 2 & 1) states.push(s);
          if (states.length) form.s[c] = states;
          if (v & 1) form.a.push(c);
          if (v & 2) form.m.push(c);
        });
      });
    });
  }


  window.guideSieve = sieve;
  window.guideSieveUnpack = unpack;

  // ---- The page -------------------------------------------------------------------------------

  var page = document.getElementById('sieve'), data = kit.data('sieve-data');
  if (!page || !data) return;
  unpack(data);
  var say = kit.say, make = kit.make, MOST = 12;
  var at = {};
  kit.all('[id^=sieve-]').forEach(function (e) { at[e.id.slice(6)] = e; });
  var ticks = {}, unseen = {}, mm = 0, part = 0, chosen = false, longest = data.longest + 1, rank;
  var known = [0, 1].map(function (k) { return data.flies.some(function (f) { return f.f.some(function (x) { return x.l[k].length; }); }); });
  var parts = kit.all('[name=part]', page), fits, rule;

  function svg(tag, attributes, text) {
    var e = document.createElementNS('http://www.w3.org/2000/svg', tag);
    Object.keys(attributes).forEach(function (k) { e.setAttribute(k, attributes[k]); });
    if (text !== undefined) e.textContent = text;
    return e;
  }
  function sign(c, s, px) {
    var src = data.characters[c].states[s].i;
    return src ? make('img', { src: src, width: px, height: px, alt: '', loading: 'lazy' }) : '';
  }
  function drawing(form) {
    var d = (form && data.drawings[form.p] || '').split(' ');
    return d[0] ? make('img', { src: d[0], width: d[1], height: d[2], alt: '' }) : '';
  }
  function feature(c, states) {
    var ch = data.characters[c];
    return ch.name + say('list.colon') + states.map(function (s) { return ch.states[s].n; }).join(say('list.or'));
  }
  function spans(l) { return l.map(function (x) { return x.join('–'); }).join(say('list.comma')) + '\u00a0mm'; }

  // What speaks against a fly, as "tails: three".
  function against(p) {
    return p.against.map(function (a) { return a.length ? say('sieve.length') + say('list.colon') + spans(a.length) : feature(a.c, a.states); });
  }

  // The largest chance that fits the water and the day chosen, and the water that gives it; -1 where the fly isn't known there.
  function here(f) {
    var day = kit.dayOf(at.date.value), top = { chance: -1, water: '' };
    f.c.forEach(function (days, w) {
      if (!days || at.water.value !== '' && data.waters[w] !== at.water.value) return;
      var c = day ? days[day - 1] : Math.max.apply(null, days);
      if (c > top.chance) top = { chance: c, water: data.waters[w] };
    });
    return top;
  }
  function chance(p) {
    var top = p.fly.here;
    if (top.chance < 0) return say('sieve.not_here');
    if (!top.chance) return say('sieve.unlikely');
    return say(at.water.value === '' ? 'sieve.likely_on' : 'sieve.likely', { share: kit.percent(top.chance), water: top.water });
  }

  // The forms that agree best: all of a stage as "dun", else as "male dun"; '' where it goes without saying.
  function forms(p) {
    if (!p.forms.length || p.forms.length === p.fly.f.length) return '';
    var words = [];
    p.forms.forEach(function (x) {
      var all = function (list) { return list.filter(function (y) { return data.forms[y.n][1] === data.forms[x.n][1]; }).length; };
      var word = data.forms[x.n][all(p.forms) === all(p.fly.f) ? 1 : 0];
      if (words.indexOf(word) < 0) words.push(word);
    });
    return words.join(say('list.or'));
  }
  function line(p) {
    var l = p.form ? p.form.l[p.form.l[part].length ? part : 1 - part] : [];
    var about = make('p', {}, [forms(p), l.length ? spans(l) : '', chance(p)].filter(Boolean).join(' · '));
    if (p.disagrees) about.append(make('br'), make('b', { class: 'shut' }, say('sieve.but', { what: against(p).join(say('list.semicolon')) })));
    return make('li', {}, make('div', { class: 'tray' }, drawing(p.form)),
      make('div', { class: 'who' }, make('h4', {}, make('a', { href: p.fly.href }, p.fly.name)), about));
  }
  function run(list) {
    var out = make('p', { class: 'rest' });
    list.forEach(function (p, i) {
      if (i) out.append(say('list.semicolon'));
      out.append(make('a', { href: p.fly.href }, p.fly.name));
      if (p.disagrees) out.append(' ' + p.against.map(function (a) { return a.length ? say('sieve.length') : data.characters[a.c].name; }).join(say('list.comma')));
    });
    return out;
  }
  function list() {
    var any = Object.keys(ticks).length || mm, out = document.createDocumentFragment();
    [0, 1, 2].forEach(function (n) {
      var of = rank.order.filter(function (p) { return n < 2 ? p.disagrees === n : p.disagrees > 1; });
      if (!of.length) return;
      out.append(make('h3', {}, say('sieve.group.' + (any || n ? n : 'all')) + ' ', make('small', {}, String(of.length))));
      var first = n < 2 ? MOST : 0;
      if (first) {
        out.append(make('ol', {}));
        of.slice(0, first).forEach(function (p) { out.lastChild.append(line(p)); });
      }
      if (of.length > first) out.append(run(of.slice(first)));
    });
    at.flies.replaceChildren(out);
  }

  // The likeliest of what agrees, as many as there is room for.
  function top() {
    at.top.replaceChildren();
    rank.order.slice(0, MOST).some(function (p, i) {
      if (p.disagrees > rank.fewest) return true;
      var li = make('li', {}, make('a', { href: p.fly.href }, make('span', {}, drawing(p.form)), p.fly.name));
      at.top.append(li);
      var full = i && at.top.scrollWidth > at.top.clientWidth;
      if (full) li.remove();
      return full;
    });
    var fit = rank.order.filter(function (p) { return !p.disagrees; }).length;
    at.count.textContent = fit || !data.flies.length ? say('sieve.counted', { fit: fit, all: data.flies.length, n: data.flies.length }) : say('sieve.none_agrees');
  }

  function toggle(c, s) {
    var t = ticks[c] || [];
    t = t.indexOf(s) < 0 ? t.concat(s) : t.filter(function (x) { return x !== s; });
    if (t.length) ticks[c] = t;
    else delete ticks[c];
    delete unseen[c];
  }

  // Each tick takes itself back.
  function chips() {
    var out = document.createDocumentFragment();
    function chip(words, picture, back) {
      var b = make('button', { type: 'button', 'aria-label': say('sieve.take_back', { what: words }) }, picture, make('span', {}, words), back === again ? '' : make('b', { 'aria-hidden': 'true' }, '×'));
      if (back === again) b.removeAttribute('aria-label');
      b.addEventListener('click', function () {
        back();
        show(true);
      });
      out.append(b);
    }
    Object.keys(ticks).forEach(function (c) {
      ticks[c].forEach(function (s) { chip(feature(c, [s]), sign(c, s, 28), function () { toggle(c, s); }); });
    });
    Object.keys(unseen).forEach(function (c) { chip(say('sieve.unseen', { what: data.characters[c].name }), '', function () { delete unseen[c]; }); });
    if (mm) chip(mm + '\u00a0mm', '', function () { mm = 0; });
    if (out.children.length > 1) chip(say('sieve.clear'), '', again);
    at.ticked.replaceChildren(out);
    at.ticked.hidden = !at.ticked.children.length;
  }
  function again() {
    ticks = {};
    unseen = {};
    mm = 0;
  }

  function next() {
    var c = data.characters.findIndex(function (ch) { return ch.name === rank.next; }), ch = data.characters[c];
    at.tiles.replaceChildren();
    at.why.textContent = ch && ch.about || '';
    if (!ch) {
      at['next-h'].textContent = say(rank.fewest ? 'sieve.none_agrees' : 'sieve.no_next');
      return;
    }
    at['next-h'].replaceChildren(say('sieve.next', { name: ch.name }), ch.with ? make('small', {}, ' ' + ch.with) : '');
    function tile(inside, does) {
      var b = make('button', { type: 'button', class: 'tile' });
      b.append.apply(b, inside);
      b.addEventListener('click', function () {
        does();
        show(true);
      });
      at.tiles.append(b);
    }
    ch.states.forEach(function (s, k) {
      tile([sign(c, k, 40), make('span', {}, s.n, s.a ? make('small', {}, s.a) : '')], function () { toggle(c, k); });
    });
    tile([make('span', {}, say('sieve.cant'))], function () { unseen[c] = true; });
  }

  // The ruler: bars say how many of the flies still in play are as long as that.
  function ruler() {
    if (!known[0] && !known[1]) {
      at.measure.hidden = true;
      return;
    }
    if (!chosen && !mm) { // as most of what agrees is measured
      var n = [0, 0];
      rank.left.forEach(function (p) { [0, 1].forEach(function (k) { if (p.form.l[k].length) n[k]++; }); });
      part = n[1] > n[0] ? 1 : 0;
    }
    parts.forEach(function (r, k) {
      r.checked = k === part;
      r.parentNode.hidden = !known[0] || !known[1];
    });
    var most = 1, d = '', u = 312 / longest, heights = [];
    for (var x = 0; x <= longest; x += 0.5) {
      var ids = {};
      rank.left.forEach(function (p) { if (fitsLength(p.form.l[part], x)) ids[p.fly.href] = 1; });
      heights.push(Object.keys(ids).length);
      most = Math.max(most, heights[heights.length - 1]);
    }
    heights.forEach(function (n, i) {
      var from = Math.max(0, (i - 0.5) / 2 * u), to = Math.min(312, (i + 0.5) / 2 * u);
      if (n) d += 'M' + from.toFixed(1) + ' 30v-' + (26 * n / most).toFixed(1) + 'H' + to.toFixed(1) + 'V30z';
    });
    fits.setAttribute('d', d);
    at.length.value = mm;
    at.length.classList.toggle('set', mm > 0);
    at.said.textContent = mm ? mm + '\u00a0mm' : say('sieve.not_measured');
    at.length.setAttribute('aria-valuetext', at.said.textContent);
    at.fit.textContent = mm ? say('sieve.so_long', { n: heights[2 * mm] }) : say('sieve.bars');
  }
  function rules() {
    var u = 312 / longest, d = '', every = longest > 40 ? 10 : 5;
    for (var x = 0; x <= longest; x++) d += 'M' + (x * u).toFixed(1) + ' 30v' + (x % 5 ? 6 : 12);
    rule = svg('svg', { viewBox: '0 0 312 82', 'aria-hidden': 'true' });
    fits = svg('path', { class: 'own' });
    rule.append(fits, svg('path', { class: 'base', d: 'M0 30H312' }), svg('path', { class: 'ticks', d: d }));
    for (x = 0; x <= longest; x += every) rule.append(svg('text', { class: 'let', x: Math.max(4, x * u).toFixed(1), y: 56 }, x));
    at.length.max = longest;
    at.length.before(rule);
  }
  function measured(x) {
    mm = Math.max(0, Math.min(longest, x));
    show(false);
  }

  function show(moved) {
    data.flies.forEach(function (f) {
      f.here = here(f);
      f.chance = Math.max(0, f.here.chance) / 1000;
    });
    rank = sieve(data.characters, data.flies, ticks, { mm: mm, part: part }, data, unseen);
    top();
    chips();
    next();
    ruler();
    list();
    kit.all('input[data-c]', at.all).forEach(function (i) { i.checked = (ticks[i.dataset.c] || []).indexOf(Number(i.value)) >= 0; });
    at.when.textContent = kit.dayOf(at.date.value) ? say('sieve.when', { date: kit.date(at.date.value) }) : say('sieve.when_any');
    if (moved) at['next-h'].focus({ preventScroll: true });
  }

  // All features are made when they are opened.
  at.all.addEventListener('toggle', function () {
    if (!at.all.open || kit.one('fieldset', at.all)) return;
    data.characters.forEach(function (ch, c) {
      var tiles = make('div', { class: 'tiles' });
      ch.states.forEach(function (s, k) {
        tiles.append(make('label', { class: 'tile' }, make('input', { type: 'checkbox', value: k, 'data-c': c, checked: (ticks[c] || []).indexOf(k) >= 0 }), sign(c, k, 40), make('span', {}, s.n)));
      });
      at.all.append(make('fieldset', {}, make('legend', {}, ch.name, ch.with ? make('small', {}, ' ' + ch.with) : ''), tiles));
    });
  });
  at.all.addEventListener('change', function (e) {
    toggle(e.target.dataset.c, Number(e.target.value));
    show(false);
  });
  parts.forEach(function (r) {
    r.addEventListener('change', function () {
      part = Number(r.value);
      chosen = true;
      show(false);
    });
  });
  at.length.addEventListener('input', function () { measured(Number(at.length.value)); });
  kit.all('[data-step]', page).forEach(function (b) {
    b.addEventListener('click', function () { measured(mm ? mm + Number(b.dataset.step) : 8); });
  });
  [at.date, at.water].forEach(function (e) {
    e.addEventListener('change', function () {
      kit.took(at.date.value, at.water.value);
      show(false);
    });
  });

  var brought = kit.reader();
  at.date.value = brought.date || kit.iso(new Date());
  kit.all('option', at.water).forEach(function (o) { if (brought.water && o.textContent === brought.water) at.water.value = brought.water; });
  rules();
  page.hidden = false;
  show(false);
}());
