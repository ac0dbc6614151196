// The front page around the date: each water with its three likeliest flies, looked up in the page's data
// block; the water that the reader opened last comes first.
(function () {
  'use strict';
  var year = guide.data('front-data'), list = guide.one('.waters'), say = list.dataset;

  function el(tag, text, className) {
    var e = document.createElement(tag);
    if (text) e.textContent = text;
    if (className) e.className = className;
    return e;
  }
  // What build/page/front.go packs: letters for places, signs for per cent.
  function place(c) { c = c.charCodeAt(0); return c > 255 ? c - 256 : c > 96 ? c - 97 : c - 39; }
  function percent(c) { c = c.charCodeAt(0); c = c > 160 ? c - 97 : c - 63; return c < 100 ? c : 99.5; }
  // How many are on, and the likeliest: each its place among the water's and its chance.
  function onDay(water, day) {
    var from = 0, before = 0, found;
    water.r.split(',').some(function (text) {
      var m = /^(\d+):(\d+)(.*)$/.exec(text), few = m[3].split(''), days = +m[1];
      if (day > before + days) {
        before += days;
        from += days * few.length;
        return false;
      }
      from += (day - before - 1) * few.length;
      return (found = { n: +m[2], few: few.map(function (c, k) { return [place(c), percent(water.c[from + k])]; }) });
    });
    return found;
  }
  function tray(water, at, chance, month) {
    var fly = year.flies[water.f[at]], full = fly.h.indexOf('.') > 0, div = el('div'), box = el('div', '', 'tray'), a = el('a', fly.n), mark = el('i', '', 'bm b' + water.e[at][month]);
    if (fly.i) {
      var img = el('img');
      img.src = /[/.]/.test(fly.i) ? fly.i : 'fig/s/' + fly.h + '-' + fly.i + '.svg';
      img.alt = '';
      img.width = fly.w;
      img.height = fly.t;
      box.appendChild(img);
    }
    a.href = full ? fly.h : 'species/' + fly.h + '.html';
    mark.setAttribute('role', 'img');
    mark.setAttribute('aria-label', say['b' + water.e[at][month]]);
    [box, a, document.createTextNode(' '), mark, document.createTextNode(' '), el('b', guide.percent(10 * chance, list))].forEach(function (e) { div.appendChild(e); });
    return div;
  }

  try {
    var last = localStorage.getItem('guide water');
    guide.all('.water', list).forEach(function (li) {
      if (guide.one('h3 a', li).href.split('?')[0] !== last) return;
      guide.one('h3 small', li).prepend(el('b', say.last), ' · ');
      list.prepend(li);
    });
  } catch (e) { /* storage is off: the waters stay in their order */ }

  guide.listen(function (d) {
    var day = guide.dayOf(d);
    guide.all('.water', list).forEach(function (li) {
      var water = year.waters[+li.dataset.water], three = guide.one('.three', li), also = guide.one('.also', li), more;
      var on = onDay(water, day);
      three.textContent = '';
      three.hidden = !on.n;
      more = on.n - on.few.length;
      if (!on.n) also.textContent = ' · ' + (guide.nobodyLooked(li, d) ? say.unlooked : say.none);
      else also.textContent = more ? ' · ' + say.more.replace('{n}', more) : '';
      on.few.forEach(function (f) { three.appendChild(tray(water, f[0], f[1], d.getMonth())); });
    });
  });
}());
