// What the tools of the site share: finding and making elements, the words of the page, dates.
// Classic script; the tools load it before themselves. Days are 1 to 365; 29 February counts
// with the 28th.
(function () {
  'use strict';
  var before = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
  var lang = document.documentElement.lang || 'en';
  var plural = null;
  var patterns = null;

  function one(selector, within) { return (within || document).querySelector(selector); }
  function all(selector, within) { return Array.prototype.slice.call((within || document).querySelectorAll(selector)); }

  function data(id) {
    var e = document.getElementById(id);
    return e ? JSON.parse(e.dataset.json) : null;
  }

  // make('p', {class: 'x', hidden: true}, 'text', element, …)
  function make(name, attributes) {
    var e = document.createElement(name);
    Object.keys(attributes || {}).forEach(function (k) {
      var v = attributes[k];
      if (v === true) e.setAttribute(k, '');
      else if (v !== false && v !== null && v !== undefined) e.setAttribute(k, v);
    });
    for (var i = 2; i < arguments.length; i++) {
      if (arguments[i] !== null && arguments[i] !== undefined) e.append(arguments[i]);
    }
    return e;
  }

  function form(n) {
    if (!plural) {
      try { plural = new Intl.PluralRules(lang); } catch (e) { plural = { select: function (k) { return k === 1 ? 'one' : 'other'; } }; }
    }
    return plural.select(Number(n));
  }

  // say gives a word of the page with its {names} filled in; {n} chooses the plural form.
  function say(key, args) {
    if (!patterns) patterns = data('words') || {};
    var p = patterns[key];
    if (p === undefined) return key;
    if (typeof p !== 'string') p = (args && p[form(args.n)]) || p.other;
    return p.replace(/\{(\w+)\}/g, function (hole, name) { return args && name in args ? String(args[name]) : hole; });
  }

  function iso(d) {
    function two(n) { return (n < 10 ? '0' : '') + n; }
    return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate());
  }

  // dayOf gives the day of the year of "2026-05-31", 0 where it is no date.
  function dayOf(text) {
    var m = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text || '');
    if (!m || m[2] < 1 || m[2] > 12) return 0;
    return before[m[2] - 1] + (m[2] === '02' && m[3] === '29' ? 28 : Number(m[3]));
  }

  // As the pages print a share, given in thousandths: never none for a small one, never certain for a large one.
  function percent(thousandths) {
    if (thousandths > 0 && thousandths < 5) return say('percent.under');
    if (thousandths >= 995 && thousandths < 1000) return say('percent.over');
    return say('percent.is', { n: Math.round(thousandths / 10) });
  }

  // date writes "2026-05-31" as a day of any year.
  function date(text) {
    var m = text.split('-').map(Number);
    return say('date.day', { day: m[2] === 1 ? say('date.first') : m[2], month: say('month.' + 'm' + m[1]) });
  }

  // kept and keep read and write what the reader leaves on the device; null where the browser allows none.
  function kept(key) {
    try { return JSON.parse(localStorage.getItem(key)); } catch (e) { return null; }
  }
  function keep(key, value) {
    try { localStorage.setItem(key, JSON.stringify(value)); return true; } catch (e) { return false; }
  }

  // reader gives the date and the water that the reader brought along, from the address or from an earlier page.
  function reader() {
    var at = { date: new URL(location.href).searchParams.get('on'), water: null };
    try {
      at.date = at.date || sessionStorage.getItem('on');
      at.water = sessionStorage.getItem('water');
    } catch (e) { /* storage is off */ }
    if (!/^\d{4}-\d\d-\d\d$/.test(at.date || '')) at.date = null;
    return at;
  }
  function took(date, water) {
    try {
      if (date) sessionStorage.setItem('on', date);
      if (water) sessionStorage.setItem('water', water);
    } catch (e) { /* as above */ }
  }

  // stay asks the browser not to clear away what is kept here when it needs room, or after some days.
  function stay() {
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(function () { /* as it likes */ });
  }

  // settle rounds to 1e-9, as every value is before it is compared.
  function settle(x) { return Math.round(x * 1e9) / 1e9; }

  window.guideKit = {
    one: one, all: all, data: data, make: make, say: say, iso: iso, dayOf: dayOf, date: date,
    percent: percent, kept: kept, keep: keep, reader: reader, took: took, stay: stay, settle: settle, lang: lang
  };
}());
