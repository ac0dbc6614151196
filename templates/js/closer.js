// Look closer: shows options in the chart library shipped with the site, beneath the button that
// asked for them. Classic script, no eval, no inline style or script; works from disk.
//
// In the page:
//   <div class="closer"><button type="button" class="chart-closer" hidden data-options="…/charts.js"
//     data-names="one|another" data-titles="What the one shows|What the other shows" data-back="Close"
//     data-loading="Loading…" data-failed="It can't be loaded here." data-hint="Touch a bar.">Look closer</button></div>
// and on an element around it (the root will do) data-chart-library="…/echarts.js".
// The files of options, separated by "|", are scripts of lines guideOption(name, height in px, option), loaded with
// the library when first wanted; guideYears(name, height, years) says what to fill the one option named "panel"
// with, once for each year. Without this script the button stays hidden.
//
// guideCharts.today(place) marks the reader's date, place on an axis of months from 0 to 12.
(function () {
  'use strict';

  var scripts = {}; // the promise of each script asked for: it is loaded once, when first wanted
  var options = {}; // by name
  var views = new Set(); // those that are open
  var today = null; // place on the axis 0 … 12

  window.guideOption = function (name, height, option) { options[name] = { height: height, text: JSON.stringify(option) }; };
  window.guideYears = function (name, height, years) { options[name] = { height: height, years: years }; };

  // The option named, anew: whoever shows it may change it.
  function option(name) {
    var o = options[name];
    return o.years ? filled(o.years) : JSON.parse(o.text);
  }

  // Panels for a chart's years, one below the other. A month is [state, its text's place, chance, that in words, low,
  // high, these in words]; states are those of the chart's months: 0 not listed, 1 not expected, 2 nobody looked.
  function filled(made) {
    var parts = ['grid', 'xAxis', 'yAxis', 'series'], out = JSON.parse(options.panel.text), used = {};
    var panel = {};
    parts.forEach(function (k) { panel[k] = JSON.stringify(out[k]); out[k] = []; });
    made.years.forEach(function (year, i) {
      var of = {};
      parts.forEach(function (k) { of[k] = JSON.parse(panel[k]); });
      of.grid[0].top = String(+of.grid[0].top + 118 * i);
      of.xAxis.forEach(function (axis) { axis.gridIndex = i; });
      Object.assign(of.yAxis[0], { name: year.name, gridIndex: i, max: made.top, minInterval: made.top / 2, maxInterval: made.top / 2 });
      var named = year.months.map(function (m, k) {
        return [made.months[k] + ': ' + (m[0] < 2 ? made.none : m[3])].concat(m.length > 4 ? made.range + ' ' + m[6] : [],
          m[1] < 0 ? [] : made.texts[m[1]], made.based[m[0]]).join('\n');
      });
      of.series = of.series.filter(function (s) {
        var state = { unlooked: 2, thin: 3, own: 4 }[s.id], any = s.id === 'today';
        if (state) {
          s.markLine.data = [];
          s.data = year.months.map(function (m, k) {
            if (m[0] !== state) return {};
            any = true;
            if (m.length > 4) s.markLine.data.push([{ name: named[k], coord: [k, m[4]] }, { coord: [k, m[5]] }]);
            return { name: named[k], value: m[2] };
          });
        } else if (s.id === 'strip') {
          year.months.forEach(function (m, k) { if (m[0] === 1 || m[0] === 2) s.data.push({ name: named[k], value: [k + 0.5, 0] }); });
        } else if (s.id === 'finds') {
          s.data = (year.finds || []).map(function (f) { return { name: made.texts[f[1]], value: [f[0], made.top] }; });
        }
        any = any || !state && s.data.length > 0;
        if (any) used[s.name] = true;
        s.xAxisIndex = 2 * i + (s.xAxisIndex || 0);
        s.yAxisIndex = i;
        if (i) { // a stack's name reaches across panels
          s.id += ':' + i;
          if (s.stack) s.stack += ':' + i;
        }
        return any;
      });
      parts.forEach(function (k) { out[k] = out[k].concat(of[k]); });
    });
    out.legend.data = out.legend.data.filter(function (name) { return used[name]; });
    return out;
  }

  function load(from) {
    if (!scripts[from]) {
      scripts[from] = new Promise(function (resolve, reject) {
        var script = document.createElement('script');
        script.src = from;
        script.onload = resolve;
        script.onerror = function () { script.remove(); reject(new Error('cannot load ' + from)); };
        document.head.appendChild(script);
      });
      scripts[from].catch(function () { delete scripts[from]; }); // a second try may fare better
    }
    return scripts[from];
  }

  // The style sheet's colours, as the chart library can read them.
  function palette(name) { return getComputedStyle(document.documentElement).getPropertyValue('--' + name).trim(); }

  var names = { own: 'bar', thin: 'sheet', unlooked: 'paper', strip: 'rule', finds: 'silk', today: 'silk',
    'group-other-water-bred': 'other', 'group-land-bred': 'land' };

  function colour(option) {
    var ink = palette('ink'), paper = palette('paper'), line = palette('line');
    option.series.forEach(function (s) {
      var kind = s.id.split(':')[0], style = s.itemStyle || (s.itemStyle = {});
      style.color = palette(names[kind] || kind.replace('group-', ''));
      if (style.borderColor) style.borderColor = kind === 'thin' ? palette('bar') : ink;
      if (style.decal) style.decal.color = kind === 'thin' || kind === 'unlooked' ? ink : paper;
      if (s.markLine && s.markLine.lineStyle) s.markLine.lineStyle.color = ink;
      if (kind === 'today') {
        s.markLine = { silent: true, symbol: 'none', label: { show: false },
          lineStyle: { color: style.color, width: 2, type: 'dashed' }, data: today === null ? [] : [{ xAxis: today }] };
      }
    });
    [].concat(option.xAxis, option.yAxis).forEach(function (axis) {
      axis.axisLabel = Object.assign({}, axis.axisLabel, { color: ink });
      axis.axisLine = Object.assign({}, axis.axisLine, { lineStyle: { color: ink } });
      axis.splitLine = Object.assign({}, axis.splitLine, { lineStyle: { color: line } });
      axis.nameTextStyle = Object.assign({}, axis.nameTextStyle, { color: ink });
    });
    option.legend = Object.assign({}, option.legend, { textStyle: { color: ink }, inactiveColor: line });
    option.tooltip = Object.assign({}, option.tooltip, { backgroundColor: paper, borderColor: ink, textStyle: { color: ink } });
    option.textStyle = { color: ink, fontFamily: getComputedStyle(document.body).fontFamily };
    option.animation = !matchMedia('(prefers-reduced-motion: reduce)').matches;
    return option;
  }

  function View(button) {
    this.button = button;
    this.word = button.textContent;
    this.charts = [];
    this.status = null; // where it says how it goes, from the first press on
  }

  View.prototype.show = function () {
    var view = this, button = this.button, words = button.dataset, titles = words.titles.split('|');
    button.disabled = true;
    button.textContent = words.loading;
    if (!view.status) {
      view.status = document.createElement('span');
      view.status.className = 'chart-status';
      view.status.setAttribute('role', 'status');
      button.insertAdjacentElement('afterend', view.status);
    }
    view.status.textContent = '';
    Promise.all([load(button.closest('[data-chart-library]').dataset.chartLibrary)].concat(words.options.split('|').map(load))).then(function () {
      words.names.split('|').forEach(function (name, i) {
        if (!window.echarts || !options[name]) throw new Error('no ' + name + ' in ' + words.options);
        var box = document.createElement('div');
        box.className = 'chart-live';
        box.style.height = options[name].height + 'px';
        box.setAttribute('role', 'img');
        box.setAttribute('aria-label', titles[i]);
        button.parentNode.appendChild(box);
        var chart = echarts.init(box, null, { renderer: 'svg' });
        view.charts.push({ name: name, box: box, chart: chart });
      });
      view.paint();
      view.watch = new ResizeObserver(function () { view.charts.forEach(function (c) { c.chart.resize(); }); });
      view.watch.observe(button.parentNode);
      views.add(view);
      button.textContent = words.back;
      view.status.textContent = words.hint;
    }).catch(function () {
      view.hide();
      view.status.textContent = words.failed;
    }).then(function () { button.disabled = false; button.focus(); });
  };

  View.prototype.paint = function () {
    this.charts.forEach(function (c) { c.chart.setOption(colour(option(c.name)), true); });
  };

  View.prototype.hide = function () {
    views.delete(this);
    if (this.watch) this.watch.disconnect();
    this.charts.forEach(function (c) { c.chart.dispose(); c.box.remove(); });
    this.charts = [];
    this.button.textContent = this.word;
    this.status.textContent = '';
  };

  function repaint() { views.forEach(function (view) { view.paint(); }); }

  window.guideCharts = { today: function (place) { today = place; repaint(); } };

  document.querySelectorAll('.chart-closer').forEach(function (button) {
    var view = new View(button);
    button.hidden = false;
    button.addEventListener('click', function () { view.charts.length ? view.hide() : view.show(); });
  });
  ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)', '(forced-colors: active)'].forEach(function (query) {
    matchMedia(query).addEventListener('change', repaint);
  });
})();
