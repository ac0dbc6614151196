// The sieve: tick what you see, in any order. Flies that disagree sink, none vanishes, and the
// most useful next question stands first. The reckoning is that of species/key/sieve.go; one table
// of cases (testdata/sieve-cases.json) runs through both. Classic script; needs kit.js.
(function () {
  'use strict';
  var kit = window.guideKit, settle = kit.settle;

  // ---- The reckoning --------------------------------------------------------------------------

  function chanceOf(fly) { return fly.chance > 0 && fly.chance < Infinity ? fly.chance : 0; }

  function bits(weights) {
    var total = 0, h = 0;
    weights.forEach(function (w) { total += w; });
    weights.forEach(function (w) { if (w > 0) h -= w / total * Math.log2(w / total); });
    return h;
  }

  // best finds the character whose best split (one state against the rest) gains most, times the
  // ease of seeing it, for the flies left with their weights; null where no split makes both
  // branches smaller. Ties go to the earlier character.
  function best(characters, left, ticks, set) {
    var total = 0, top = 0, found = null;
    left.forEach(function (m) { total += m.weight; });
    if (total === 0) total = 1;
    characters.forEach(function (ch) {
      if ((ticks[ch.name] || []).length) return;
      var sums = ch.states.map(function () { return { only: 0, mixed: 0, nOnly: 0, nMixed: 0 }; });
      var unknown = 0, nUnknown = 0;
      left.forEach(function (m) {
        var words = m.fly.states[ch.name] || [], has = [];
        ch.states.forEach(function (s, i) { if (words.indexOf(s) >= 0) has.push(i); });
        if (!has.length) {
          unknown += m.weight;
          nUnknown++;
        }
        has.forEach(function (i) {
          if (has.length === 1) {
            sums[i].only += m.weight;
            sums[i].nOnly++;
          } else {
            sums[i].mixed += m.weight;
            sums[i].nMixed++;
          }
        });
      });
      sums.forEach(function (a) {
        if (!a.nOnly || a.nOnly + a.nMixed + nUnknown === left.length) return;
        var shared = (a.mixed + unknown) / total, yes = a.only / total + shared / 2;
        var score = settle((set.ease[ch.needs] || 0) * (bits([yes, 1 - yes]) - shared));
        if (!found || score > top) {
          top = score;
          found = ch;
        }
      });
    });
    return found;
  }

  // sieve ranks the flies and names the character to ask about next, '' for none.
  //   characters: [{name, states: [word], needs: 0 | 1 | 2}], flies: [{id, name, chance, states: {character: [word]}}],
  //   ticks: {character: [word]}, set: {ease: [3 numbers], base: number}
  function sieve(characters, flies, ticks, set) {
    var fewest = Infinity;
    var order = flies.map(function (fly) {
      var p = { id: fly.id, disagrees: 0, agrees: 0, against: [], fly: fly };
      characters.forEach(function (ch) {
        var ticked = ticks[ch.name] || [], states = fly.states[ch.name] || [];
        if (!ticked.length || !states.length) return;
        if (states.some(function (s) { return ticked.indexOf(s) >= 0; })) p.agrees++;
        else {
          p.disagrees++;
          p.against.push(ch.name);
        }
      });
      fewest = Math.min(fewest, p.disagrees);
      return p;
    });
    var left = order.filter(function (p) { return p.disagrees === fewest; }).map(function (p) {
      return { fly: p.fly, weight: chanceOf(p.fly) + set.base };
    });
    var next = best(characters, left, ticks, set);
    function less(a, b) { return a < b ? -1 : a > b ? 1 : 0; }
    order.sort(function (a, b) {
      return a.disagrees - b.disagrees || settle(chanceOf(b.fly)) - settle(chanceOf(a.fly)) ||
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
  var flies = data.flies.map(function (f) {
    var states = {};
    Object.keys(f.s).forEach(function (c) {
      states[data.characters[c].name] = f.s[c].map(function (s) { return data.characters[c].states[s]; });
    });
    return { id: f.id, name: f.name, href: f.href, c: f.c, states: states, chance: 0 };
  });

  function ticks() {
    var t = {};
    fieldsets.forEach(function (f) {
      var on = kit.all('input:checked', f).map(function (i) { return i.value; });
      if (on.length) t[f.dataset.character] = on;
    });
    return t;
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
    var li = kit.make('li', p.disagrees ? { class: 'sinks' } : {}, kit.make('a', { href: p.fly.href }, p.fly.name));
    var about = [];
    if (p.disagrees) about.push(kit.say('sieve.disagrees', { n: p.disagrees }) + ' (' + p.against.join(', ') + ')');
    else if (p.agrees) about.push(kit.say('sieve.agrees', { n: p.agrees }));
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
    var s = sieve(data.characters, flies, t, { ease: data.ease, base: data.base });
    answered = answered.filter(function (f) { return t[f.dataset.character]; });
    fieldsets.forEach(function (f) { if (t[f.dataset.character] && answered.indexOf(f) < 0) answered.unshift(f); });

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
  date.value = kit.iso(new Date());
  page.hidden = false;
  page.addEventListener('change', function (e) {
    var f = e.target.closest('fieldset');
    if (f && e.target.checked) {
      answered = answered.filter(function (a) { return a !== f; });
      answered.unshift(f);
    }
    show(f);
  });
  document.getElementById('sieve-clear').addEventListener('click', function () {
    kit.all('input:checked', questions).forEach(function (i) { i.checked = false; });
    show(null);
  });
  show(null);
}());
