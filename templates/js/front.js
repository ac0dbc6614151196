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
  function chances(water, at, day) { // of the flies that the run names, in per cent
    var from = 0;
    for (var i = 0; i < at; i++) from += (water.r[i][1] - water.r[i][0] + 1) * water.r[i][3].length;
    from += (day - water.r[at][0]) * water.r[at][3].length;
    return water.r[at][3].map(function (f, k) { return +water.c.substr(2 * (from + k), 2) || 99.5; });
  }
  function tray(water, f, chance, month) {
    var fly = year.flies[f], div = el('div'), box = el('div', '', 'tray'), a = el('a', fly.n), mark = el('i', '', 'bm b' + water.e[f][month]);
    if (fly.i) {
      var img = el('img');
      img.src = fly.i;
      img.alt = '';
      img.width = fly.w;
      img.height = fly.t;
      box.appendChild(img);
    }
    a.href = fly.h;
    mark.setAttribute('role', 'img');
    mark.setAttribute('aria-label', say['b' + water.e[f][month]]);
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
      var water = year.waters[+li.dataset.water], three = guide.one('.three', li), also = guide.one('.also', li);
      var at = water.r.findIndex(function (r) { return r[0] <= day && day <= r[1]; }), run = water.r[at];
      three.textContent = '';
      three.hidden = !run || !run[2];
      also.hidden = !three.hidden && run[2] === run[3].length;
      if (three.hidden) {
        also.textContent = guide.nobodyLooked(li, d) ? say.unlooked : say.none;
        return;
      }
      chances(water, at, day).forEach(function (c, k) { three.appendChild(tray(water, run[3][k], c, d.getMonth())); });
      also.textContent = say.more.replace('{n}', run[2] - run[3].length);
    });
  });
}());
