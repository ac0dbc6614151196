// Look closer: shows a chart's option in the chart library shipped with the site,
// in place of the chart's SVG, and puts the SVG back. Classic script, no eval, no
// inline style or script; works from disk.
//
// In the page, within one <figure> (or any element with data-chart):
//   the <svg class="chart"> and
//   <button type="button" class="chart-closer" hidden data-options="…/charts.js" data-option="its name"
//     data-back="Back to the plain chart" data-loading="Loading the closer view…"
//     data-failed="The closer view can't be loaded here. The chart and the table hold the same figures."
//     data-hint="Touch or point at a bar for its figures.">Look closer</button>
// and on an element around it (the root will do) data-chart-library="…/echarts.js".
// The file of options is a script of lines guideOption(name, height in px, option), loaded with
// the library when first wanted. Without this script the button stays hidden.
//
// guideCharts.today(month, day) puts the reader's date on every chart of the page
// (place on the axis of months: see build/chart/svg.go); without arguments it takes it off.
(function () {
  'use strict';

  var scripts = {}; // the promise of each script asked for: it is loaded once, when first wanted
  var options = {}; // by name
  var open = new Set(); // views that are shown
  var today = null; // place on the axis 0 … 12
  var days = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

  window.guideOption = function (name, height, option) { options[name] = { height: height, text: JSON.stringify(option) }; };

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
  function palette(svg) {
    var probe = document.createElement('span');
    probe.hidden = true;
    document.body.appendChild(probe);
    var values = getComputedStyle(svg);
    return {
      get: function (name, instead) {
        var value = values.getPropertyValue('--chart-' + name).trim();
        if (!value) return instead;
        probe.style.color = value;
        return getComputedStyle(probe).color || instead;
      },
      done: function () { probe.remove(); }
    };
  }

  var names = {
    own: 'own', thin: 'thin', unlooked: 'paper', strip: 'ink', finds: 'mark', today: 'mark',
    'group-other-water-bred': 'other', 'group-land-bred': 'land'
  };

  function colour(option, svg) {
    var p = palette(svg);
    var ink = p.get('ink', '#22302e'), paper = p.get('paper', '#fff'), line = p.get('line', '#c4ccc9');
    option.series.forEach(function (s) {
      var kind = s.id.split(':')[0];
      var style = s.itemStyle || (s.itemStyle = {});
      style.color = p.get(names[kind] || kind.replace('group-', ''), style.color);
      if (style.borderColor) style.borderColor = kind === 'thin' ? p.get('own', ink) : ink;
      if (style.decal && style.decal.color) {
        style.decal.color = kind === 'thin' || kind === 'unlooked' ? ink
          : p.get(style.decal.color === '#ffffff' ? 'light' : 'dark', ink);
      }
      if (s.markLine && s.markLine.lineStyle) s.markLine.lineStyle.color = ink;
      if (kind === 'today') {
        s.markLine = {
          silent: true, symbol: 'none', label: { show: false },
          lineStyle: { color: style.color, width: 2, type: 'dashed' },
          data: today === null ? [] : [{ xAxis: today }]
        };
      }
    });
    [].concat(option.xAxis, option.yAxis).forEach(function (axis) {
      axis.axisLabel = Object.assign({}, axis.axisLabel, { color: ink });
      axis.axisLine = Object.assign({}, axis.axisLine, { lineStyle: { color: ink } });
      axis.splitLine = Object.assign({}, axis.splitLine, { lineStyle: { color: line } });
      axis.nameTextStyle = Object.assign({}, axis.nameTextStyle, { color: ink });
    });
    option.legend = Object.assign({}, option.legend, {
      textStyle: { color: ink }, inactiveColor: line,
      pageTextStyle: { color: ink }, pageIconColor: ink, pageIconInactiveColor: line
    });
    option.tooltip = Object.assign({}, option.tooltip, {
      backgroundColor: paper, borderColor: ink, textStyle: { color: ink }
    });
    option.textStyle = { color: ink, fontFamily: getComputedStyle(svg).fontFamily };
    option.animation = !matchMedia('(prefers-reduced-motion: reduce)').matches;
    p.done();
    return option;
  }

  function View(button) {
    this.button = button;
    this.figure = button.closest('figure, [data-chart]');
    this.svg = this.figure.querySelector('svg.chart');
    this.word = button.textContent;
    this.status = null; // where it says how it goes, from the first press on
  }

  View.prototype.show = function () {
    var view = this, button = this.button, words = button.dataset;
    var from = button.closest('[data-chart-library]');
    button.disabled = true;
    button.textContent = words.loading || view.word;
    if (!view.status) {
      view.status = document.createElement('span');
      view.status.className = 'chart-status';
      view.status.setAttribute('role', 'status');
      button.insertAdjacentElement('afterend', view.status);
    }
    view.status.textContent = '';
    Promise.all([load(from.dataset.chartLibrary), load(words.options)]).then(function () {
      if (!window.echarts || !options[words.option]) throw new Error('no ' + words.option + ' in ' + words.options);
      var box = document.createElement('div');
      var title = view.svg.querySelector('title');
      box.className = 'chart-live';
      box.style.height = options[words.option].height + 'px';
      box.setAttribute('role', 'img');
      box.setAttribute('aria-label', title ? title.textContent : '');
      view.svg.insertAdjacentElement('afterend', box);
      view.svg.style.display = 'none';
      view.box = box;
      view.chart = echarts.init(box, null, { renderer: 'svg' });
      view.paint();
      view.watch = new ResizeObserver(function () { view.chart.resize(); });
      view.watch.observe(box);
      open.add(view);
      button.textContent = words.back || view.word;
      view.status.textContent = words.hint || '';
    }).catch(function (err) {
      view.hide();
      view.status.textContent = words.failed || err.message;
    }).then(function () { button.disabled = false; button.focus(); });
  };

  View.prototype.paint = function () {
    this.chart.setOption(colour(JSON.parse(options[this.button.dataset.option].text), this.svg), true);
  };

  View.prototype.hide = function () {
    open.delete(this);
    if (this.watch) this.watch.disconnect();
    if (this.chart) this.chart.dispose();
    if (this.box) this.box.remove();
    this.watch = this.chart = this.box = null;
    this.svg.style.display = '';
    this.button.textContent = this.word;
    this.status.textContent = '';
  };

  function repaint() { open.forEach(function (view) { view.paint(); }); }

  function place(svg) {
    var mark = svg.querySelector('.chart-today');
    if (!mark) return;
    if (today === null) {
      mark.setAttribute('display', 'none');
      return;
    }
    var x = Number(mark.dataset.left) + Number(mark.dataset.month) * today;
    mark.setAttribute('transform', 'translate(' + x.toFixed(2) + ')');
    mark.removeAttribute('display');
  }

  window.guideCharts = {
    today: function (month, day) {
      var known = month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1];
      today = known ? month - 1 + (day - 0.5) / days[month - 1] : null;
      document.querySelectorAll('svg.chart').forEach(place);
      repaint();
    }
  };

  function start() {
    document.querySelectorAll('.chart-closer').forEach(function (button) {
      var figure = button.closest('figure, [data-chart]');
      if (!figure || !figure.querySelector('svg.chart') || !button.closest('[data-chart-library]')) return;
      var view = new View(button);
      button.hidden = false;
      button.addEventListener('click', function () { view.chart ? view.hide() : view.show(); });
    });
    ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)', '(forced-colors: active)'].forEach(function (query) {
      matchMedia(query).addEventListener('change', repaint);
    });
    new MutationObserver(repaint).observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  }

  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', start);
  else start();
})();
