// The sieve: tick what you see and measure, in any order. Flies that disagree sink, none vanishes, and the most useful
// next question stands first. A fly is judged in each of its forms, and shown in the best. The question is that of
// species/key/couplets.go over the features; tests hold the two together. Classic script; needs kit.js.
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
    function add(side, m, w) { sides[side][m.fly.id] = (sides[side][m.fly.id] || 0) + w; }
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

  // ask finds the character to ask about next for the forms left: of the easiest way of seeing that gains enough, of
  // the best the first in the order in which one looks; null for none.
  function ask(characters, left, ticks, set) {
    var ids = [];
    left.forEach(function (m) { if (ids.indexOf(m.fly.id) < 0) ids.push(m.fly.id); });
    if (ids.length < 2) return null;
    function candidates(fits, last) {
      var all = [];
      characters.forEach(function (ch, c) {
        if ((ticks[c] || []).length || !fits(function (m) { return m.form.a.indexOf(c) >= 0; })) return;
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

  // judge holds one form against the ticks and a length in mm (0: none).
  function judge(form, ticks, length) {
    var p = { form: form, disagrees: 0, agrees: 0, against: [] };
    Object.keys(ticks).forEach(function (c) {
      var states = form.s[c] || [];
      if (!ticks[c].length || !states.length) return;
      if (states.some(function (s) { return ticks[c].indexOf(s) >= 0; })) p.agrees++;
      else {
        p.disagrees++;
        p.against.push({ c: Number(c), states: states });
      }
    });
    if (length > 0 && form.l.length) {
      if (form.l.some(function (l) { return settle(Math.max(l[0] - length, length - l[1]) - MARGIN) <= 0; })) p.agrees++;
      else {
        p.disagrees++;
        p.against.push({ length: form.l });
      }
    }
    return p;
  }

  // sieve ranks the flies, each in its best form, and names the character to ask about next, '' for none.
  //   characters: [{name, states: [word], needs, place}], ticks: {character's place: [state's place]},
  //   flies: [{id, name, chance, f: [{n, s: {character: [state]}, a: [character], m: [character], l: [[low, high]]}]}]
  function sieve(characters, flies, ticks, length, set) {
    var fewest = Infinity, judged = [];
    var order = flies.map(function (fly) {
      var best = { form: null, disagrees: 0, agrees: 0, against: [] };
      fly.f.forEach(function (form, i) {
        var p = judge(form, ticks, length);
        p.fly = fly;
        judged.push(p);
        if (!i || p.disagrees < best.disagrees || p.disagrees === best.disagrees && p.agrees > best.agrees) best = p;
      });
      fewest = Math.min(fewest, best.disagrees);
      best.fly = fly;
      best.id = fly.id;
      return best;
    });
    var left = judged.filter(function (p) { return p.disagrees === fewest; }), forms = {};
    left.forEach(function (p) { forms[p.fly.id] = (forms[p.fly.id] || 0) + 1; });
    left.forEach(function (p) { p.weight = (chanceOf(p.fly) + set.base) / forms[p.fly.id]; });
    var next = ask(characters, left, ticks, set);
    function less(a, b) { return a < b ? -1 : a > b ? 1 : 0; }
    order.sort(function (a, b) {
      return a.disagrees - b.disagrees || b.agrees - a.agrees || settle(chanceOf(b.fly)) - settle(chanceOf(a.fly)) ||
        less(a.fly.name, b.fly.name) || less(a.id, b.id);
    });
    return { order: order, next: next ? next.name : '', fewest: flies.length ? fewest : 0 };
  }

  window.guideSieve = sieve;

  // ---- The page -------------------------------------------------------------------------------

  var page = document.getElementById('sieve'), data = kit.data('sieve-data');
  if (!page || !data) return;
  var water = document.getElementById('sieve-water'), date = document.getElementById('sieve-date');
  var nextLine = document.getElementById('sieve-next'), count = document.getElementById('sieve-count');
  var list = document.getElementById('sieve-flies');
  var questions = kit.one('.questions', page);
  var fieldsets = kit.all('fieldset', questions), byName = {};
  var answered = []; // fieldsets with ticks, the last touched first
  var rest = kit.make('details', { class: 'rest' }, kit.make('summary', {}, ''));

  fieldsets.forEach(function (f) { byName[f.dataset.character] = f; });
  var flies = data.flies, placeOf = {}, length = document.getElementById('sieve-length');
  data.characters.forEach(function (ch, c) { placeOf[ch.name] = c; });

  function ticks() {
    var t = {};
    fieldsets.forEach(function (f) {
      var c = placeOf[f.dataset.character];
      var on = kit.all('input:checked', f).map(function (i) { return data.characters[c].states.indexOf(i.value); });
      if (on.length) t[c] = on;
    });
    return t;
  }

  function measured() { return Number(length.value) > 0 ? Number(length.value) : 0; }

  // What speaks against a fly, as "tails: three".
  function against(p) {
    return p.against.map(function (a) {
      if (a.length) return kit.say('sieve.length') + kit.say('list.colon') + a.length.map(function (l) { return l.join('–') + '\u00a0mm'; }).join(', ');
      var ch = data.characters[a.c];
      return ch.name + kit.say('list.colon') + a.states.map(function (s) { return ch.states[s]; }).join(', ');
    }).join(kit.say('list.semicolon'));
  }

  // The half-month chosen, 0 to 23; -1 for none.
  function half() {
    var m = /^\d{4}-(\d\d)-(\d\d)$/.exec(date.value);
    return m ? 2 * (m[1] - 1) + (m[2] > 15 ? 1 : 0) : -1;
  }

  // The largest chance that fits the water and the half-month chosen, and the water that gives it; -1
  // where the fly isn't known there.
  function here(f) {
    var cell = half(), top = { chance: -1, water: '' };
    f.c.forEach(function (cells, w) {
      if (water.value !== '' && data.waters[w] !== water.value || !cells.length) return;
      var c = cell < 0 ? Math.max.apply(null, cells) : cells[cell];
      if (c > top.chance) top = { chance: c, water: data.waters[w] };
    });
    return top;
  }

  // arrange puts the next question first, then those with ticks, then the rest in a part of its
  // own, moving as little as it can: the reader's place and focus stay.
  function arrange(next) {
    var focus = document.activeElement;
    var top = next ? [byName[next]] : [];
    answered.forEach(function (f) { if (top.indexOf(f) < 0) top.push(f); });
    var others = fieldsets.filter(function (f) { return top.indexOf(f) < 0; });
    place(questions, top.concat(others.length ? [rest] : []));
    if (!others.length) rest.remove();
    place(rest, [rest.firstChild].concat(others));
    rest.firstChild.textContent = kit.say('sieve.rest', { n: others.length });
    fieldsets.forEach(function (f) { f.classList.toggle('next', f.dataset.character === next); });
    if (focus && focus !== document.activeElement && questions.contains(focus)) focus.focus({ preventScroll: true });
  }

  function place(parent, wanted) {
    var at = parent.firstChild;
    wanted.forEach(function (e) {
      if (e === at) at = at.nextSibling;
      else parent.insertBefore(e, at);
    });
  }

  function line(p) {
    var li = kit.make('li', p.disagrees ? { class: 'sinks' } : {},
      kit.make('span', { class: 'tray' }, p.fly.i ? kit.make('img', { src: p.fly.i, width: p.fly.w, height: p.fly.t, alt: '' }) : ''),
      kit.make('a', { href: p.fly.href }, p.fly.name));
    var about = [];
    if (p.form && (p.agrees || p.disagrees)) about.push(data.forms[p.form.n]);
    if (p.disagrees) about.push(kit.say('sieve.but', { what: against(p) }));
    var top = p.fly.here;
    if (top.chance < 0) about.push(kit.say('sieve.not_here'));
    else if (top.chance < 5) about.push(kit.say('sieve.unlikely'));
    else about.push(kit.say(water.value === '' ? 'sieve.likely_on' : 'sieve.likely', { share: kit.percent(top.chance), water: top.water }));
    li.append(' ', kit.make('small', {}, about.join(' · ')));
    return li;
  }

  // The first few by name, so that on a phone the answer stands where the questions are.
  function names(order) {
    var out = document.createDocumentFragment();
    order.forEach(function (p, i) { out.append(i ? ', ' : '', kit.make('a', { href: p.fly.href }, p.fly.name)); });
    return out;
  }

  function show(touched) {
    var t = ticks();
    flies.forEach(function (f) {
      f.here = here(f);
      f.chance = Math.max(0, f.here.chance) / 1000;
    });
    var s = sieve(data.characters, flies, t, measured(), data);
    answered = answered.filter(function (f) { return t[placeOf[f.dataset.character]]; });
    fieldsets.forEach(function (f) { if (t[placeOf[f.dataset.character]] && answered.indexOf(f) < 0) answered.unshift(f); });

    var wasFirst = touched && touched === questions.firstElementChild;
    var was = touched ? touched.getBoundingClientRect().top : 0;
    arrange(s.next);
    if (touched) { // the next question appears where the last one stood; any other keeps its place
      var now = (wasFirst ? questions.firstElementChild : touched).getBoundingClientRect().top;
      if (Math.abs(now - was) > 1) window.scrollBy(0, now - was);
    }

    nextLine.textContent = '';
    if (s.next) {
      var go = kit.make('button', { type: 'button', class: 'quiet' }, s.next);
      go.addEventListener('click', function () {
        byName[s.next].scrollIntoView({ block: 'center' });
        kit.one('input', byName[s.next]).focus({ preventScroll: true });
      });
      var parts = kit.say('sieve.next', { name: '\u0000' }).split('\u0000');
      nextLine.append(parts[0], go, parts[1] || '');
    }
    var fit = s.order.filter(function (p) { return p.disagrees === 0; }).length;
    if (!s.next) nextLine.textContent = kit.say(fit || !flies.length ? 'sieve.no_next' : 'sieve.none_agrees');
    count.textContent = kit.say('sieve.counted', { fit: fit, all: flies.length, n: flies.length }) + ' ';
    var firsts = kit.say('sieve.firsts', { names: '\u0000' }).split('\u0000');
    if (flies.length) count.append(kit.make('small', {}, firsts[0], names(s.order.slice(0, 3)), firsts[1] || ''));
    var cell = half(); // the chance is that of the half-month's seventh day
    document.getElementById('sieve-when').textContent = cell < 0 ? kit.say('sieve.when_any')
      : kit.say('sieve.when', { date: kit.date(date.value.slice(0, 8) + (cell % 2 ? '22' : '07')) });
    list.textContent = '';
    s.order.forEach(function (p) { list.append(line(p)); });
  }

  questions.append(rest);
  var brought = kit.reader();
  date.value = brought.date || kit.iso(new Date());
  kit.all('option', water).forEach(function (o) { if (brought.water && o.textContent === brought.water) water.value = brought.water; });
  page.hidden = false;
  page.addEventListener('change', function (e) {
    if (e.target === date || e.target === water) kit.took(date.value, water.value);
    var f = e.target.closest('fieldset');
    if (f && e.target.checked) {
      answered = answered.filter(function (a) { return a !== f; });
      answered.unshift(f);
    }
    show(f);
  });
  document.getElementById('sieve-clear').addEventListener('click', function () {
    kit.all('input:checked', questions).forEach(function (i) { i.checked = false; });
    length.value = '';
    show(null);
  });
  show(null);
}());
