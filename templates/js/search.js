// Search over every name, water, dressing and term of the guide, tolerant of misspelling. The
// index comes with assets/search-index.js; minisearch.js does the looking up. On the front page
// the box only leads to the search page. Classic script; the search page loads kit.js too.
(function () {
  'use strict';
  var other = { 'ø': 'o', 'đ': 'd', 'ł': 'l', 'æ': 'ae', 'œ': 'oe', 'ß': 'ss', 'þ': 'th', 'ð': 'd', 'ı': 'i' };

  // plain gives a text as it is looked up: lower case, without diacritics.
  function plain(text) {
    return text.toLowerCase().normalize('NFD').replace(/\p{Mn}/gu, '').replace(/[øđłæœßþðı]/g, function (c) { return other[c]; });
  }

  function words(text) { return plain(text).split(/[^\p{L}\p{N}\p{M}]+/u).filter(Boolean); }

  // open makes a search from the index: search(query) gives {hits: [{kind, name, href, about, as}], near, shared}.
  // as: the other names by which it was found; near: how many hits come first and bear the query itself;
  // shared: the flies of which the query is a name, where there are several.
  function open(index) {
    var docs = index.map(function (d, i) {
      var all = [d[1]].concat(d[3].map(function (o) { return o[0]; }));
      return { id: i, kind: d[0], name: d[1], href: d[2], others: d[3], about: d[4], all: all, plain: all.map(plain) };
    });
    var mini = new MiniSearch({
      fields: ['names', 'about'],
      // A name in two words or with a hyphen is found written as one, too.
      extractField: function (doc, field) {
        if (field === 'id') return doc.id;
        if (field === 'about') return doc.about.join(' ');
        return doc.all.map(function (n) { return n + ' ' + words(n).join(''); }).join(' ');
      },
      tokenize: words,
      processTerm: function (term) { return term; }
    });
    mini.addAll(docs);

    return function (query) {
      var q = words(query).join(' '), joined = q.replace(/ /g, '');
      if (!q) return { hits: [], shared: [] };
      var options = {
        prefix: true, boost: { names: 4 }, maxFuzzy: 3, combineWith: 'AND',
        fuzzy: function (term) { return term.length > 3 ? 0.3 : false; }
      };
      var hits = mini.search(q, options), found = new Set(hits.map(function (h) { return h.id; }));
      // What the reader writes in two words may be written as one.
      docs.forEach(function (d) {
        if (hits.length && !found.has(d.id) && d.all.some(function (n) { return words(n).join('') === joined; })) hits.push({ id: d.id, score: 0, terms: [] });
      });
      if (!hits.length) hits = mini.search(joined, options);
      if (!hits.length) hits = mini.search(q, Object.assign({}, options, { combineWith: 'OR' }));
      if (!hits.length) { // scripts that put no space between words
        hits = docs.filter(function (d) { return d.plain.some(function (n) { return n.indexOf(q) >= 0; }); })
          .map(function (d) { return { id: d.id, score: 0, terms: [] }; });
      }
      // How well a name answers: the query itself, its beginning, a part of it, or one like it.
      function rank(n) {
        var name = words(n).join(' ');
        return name === q || name.replace(/ /g, '') === joined ? 0 : name.indexOf(q) === 0 ? 1 : (' ' + name).indexOf(' ' + q) >= 0 ? 2 : 3;
      }
      var list = hits.map(function (h) {
        var d = docs[h.id], ranks = d.all.map(rank);
        return { doc: d, score: h.score, rank: Math.min.apply(null, ranks), as: d.others.filter(function (o) {
          return rank(o[0]) < rank(d.name) || rank(o[0]) === 3 && rank(d.name) === 3 && words(o[0]).some(function (w) { return h.terms.indexOf(w) >= 0; });
        }) };
      });
      list.sort(function (a, b) { return a.rank - b.rank || (a.rank < 3 ? a.doc.kind - b.doc.kind : 0) || b.score - a.score || a.doc.id - b.doc.id; });
      var bearers = list.filter(function (h) { return h.rank === 0 && h.doc.kind === 0; });
      return {
        hits: list.map(function (h) {
          return { kind: h.doc.kind, name: h.doc.name, href: h.doc.href, about: h.doc.about, as: h.as, near: h.rank < 3 };
        }),
        shared: bearers.length > 1 ? bearers.map(function (h) { return h.doc.name; }) : []
      };
    };
  }

  window.guideSearch = open;

  // ---- The front page ---------------------------------------------------------------------------

  var box = document.querySelector('[data-search]');
  if (box) {
    box.hidden = false;
    box.querySelector('form').addEventListener('submit', function (e) {
      e.preventDefault();
      location.href = box.dataset.search + '#q=' + encodeURIComponent(box.querySelector('input').value);
    });
  }

  // ---- The search page --------------------------------------------------------------------------

  var kit = window.guideKit, page = document.getElementById('search-tool');
  if (!page || !kit || !window.guideSearchIndex || !window.MiniSearch) return;
  var input = document.getElementById('search-for'), says = document.getElementById('search-says'), out = document.getElementById('search-found');
  var kinds = ['fly', 'water', 'dressing', 'term', 'page'];
  var search = open(window.guideSearchIndex);
  var most = 30; // what a page shows at once

  function line(h) {
    var li = kit.make('li', {}, kit.make('a', { href: h.href }, h.name), ' ', kit.make('small', { class: 'tag' }, kit.say('search.kind.' + kinds[h.kind])));
    if (h.as.length) {
      li.append(' ', kit.make('small', {}, h.as.map(function (o) { return kit.say('search.also', { name: o[0], kind: o[1] }); }).join(', ')));
    }
    h.about.forEach(function (a) { li.append(kit.make('p', { class: 'about' }, a)); });
    return li;
  }

  function show() {
    var r = search(input.value);
    out.textContent = '';
    if (!words(input.value).length) {
      says.textContent = '';
      return;
    }
    var text = r.hits.length ? kit.say('search.found', { n: r.hits.length }) : kit.say('search.none');
    if (r.shared.length) text = kit.say('search.shared', { name: input.value.trim(), n: r.shared.length }) + ' ' + text;
    says.textContent = text;
    var near = r.hits.filter(function (h) { return h.near; }), rest = r.hits.filter(function (h) { return !h.near; });
    near.concat(near.length ? [] : rest).slice(0, most).forEach(function (h) { out.append(line(h)); });
    if (near.length && rest.length) {
      var more = kit.make('ol', { class: 'hits' });
      rest.slice(0, most).forEach(function (h) { more.append(line(h)); });
      out.append(kit.make('li', { class: 'rest' }, kit.make('details', {}, kit.make('summary', {}, kit.say('search.more', { n: rest.length })), more)));
    }
  }

  var wait = 0;
  function later() {
    clearTimeout(wait);
    wait = setTimeout(function () {
      show();
      try { history.replaceState(null, '', input.value ? '#q=' + encodeURIComponent(input.value) : location.pathname); } catch (e) { /* from disk some browsers refuse */ }
    }, 120);
  }
  function asked() {
    var m = /^#q=(.*)$/.exec(location.hash);
    if (!m) return;
    try { input.value = decodeURIComponent(m[1]); } catch (e) { input.value = m[1]; }
    show();
  }

  page.hidden = false;
  var az = document.getElementById('az');
  az.open = /^#az-/.test(location.hash);
  input.addEventListener('input', later);
  page.querySelector('form').addEventListener('submit', function (e) {
    e.preventDefault();
    show();
    var first = kit.one('a', out);
    if (first) first.focus();
  });
  window.addEventListener('hashchange', function () { if (location.hash.indexOf('#az-') === 0) az.open = true; else asked(); });
  asked();
}());
