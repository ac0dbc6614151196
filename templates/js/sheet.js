// The net sheet: logs a visit on the device, an empty one first, keeps the visits there, and hands
// them out as a file of samples in plain headings, which a guide takes as it is. Classic script;
// needs kit.js.
(function () {
  'use strict';
  var headings = ['visit', 'date', 'start', 'end', 'water', 'beat', 'method', 'effort', 'looked for', 'fly', 'stage', 'sex', 'count', 'lengths mm', 'by', 'remarks'];

  function tidy(text) { return String(text === undefined || text === null ? '' : text).replace(/\s+/g, ' ').trim(); }

  // lengths reads "7,9 8.3; 8" as "7.9 8.3 8"; null where something else stands there.
  function lengths(text) {
    var list = tidy(text).split(/[\s;]+/).filter(Boolean).map(function (n) { return n.replace(',', '.').replace(/mm$/i, ''); });
    return list.every(function (n) { return /^\d{1,2}(\.\d{1,2})?$/.test(n) && Number(n) > 0; }) ? list.join(' ') : null;
  }

  // scope words the groups looked for: water-bred where it is just those, all, none, or the groups.
  function scope(groups, bred, all) {
    if (!groups.length) return 'none';
    if (groups.length === all) return 'all';
    if (groups.length === bred.length && bred.every(function (g) { return groups.indexOf(g) >= 0; })) return 'water-bred';
    return groups.join('; ');
  }

  // csv writes visits as a file of samples (RFC 4180). A visit: {visit, date, start, end, water, beat,
  // method, effort, scope, by, remarks, finds: [{fly, stage, sex, count, lengths}]}. Cells of the visit
  // stand in its first row; remarks of a visit with finds in a row of their own, since beside a find
  // they would speak of that.
  function csv(visits) {
    function cell(text) {
      text = tidy(text).replace(/^[=+\-@]/, ' $&'); // a spreadsheet would take it for a formula; readers of sheets drop the space
      return /[",\r\n]/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text;
    }
    var lines = [headings.map(cell).join(',')];
    visits.forEach(function (v) {
      var first = { visit: v.visit, date: v.date, start: v.start, end: v.end, water: v.water, beat: v.beat, method: v.method,
        effort: v.effort, 'looked for': v.scope, by: v.by };
      function row(more) {
        Object.keys(more).forEach(function (k) { first[k] = more[k]; });
        lines.push(headings.map(function (h) { return cell(first[h]); }).join(','));
        first = { visit: v.visit };
      }
      if (!v.finds.length) row({ fly: 'nothing', remarks: v.remarks });
      else if (tidy(v.remarks)) row({ remarks: v.remarks });
      v.finds.forEach(function (f) {
        row({ fly: f.fly, stage: f.stage, sex: f.sex, count: f.count, 'lengths mm': lengths(f.lengths) || '' });
      });
    });
    return lines.join('\r\n') + '\r\n';
  }

  // mark gives a visit a name of its own: who, where, when, and a letter more where that is taken.
  function mark(v, taken) {
    function letters(text, n) { return tidy(text).normalize('NFD').replace(/[^A-Za-z0-9]/g, '').slice(0, n).toUpperCase(); }
    function initials(text) { return tidy(text).split(' ').map(function (w) { return letters(w, 1); }).join('').slice(0, 3); }
    var base = [letters(v.water, 4) || 'W', v.date.replace(/-/g, ''), v.start.replace(':', '') + initials(v.by)].filter(Boolean).join('-');
    var name = base;
    for (var i = 2; taken.indexOf(name) >= 0; i++) name = base + '-' + i;
    return name;
  }

  window.guideSheet = { csv: csv, mark: mark, lengths: lengths, scope: scope };

  // ---- The page -------------------------------------------------------------------------------

  var kit = window.guideKit, form = document.getElementById('sheet'), data = kit && kit.data('sheet-data');
  if (!form || !data) return;
  var finds = document.getElementById('sheet-finds'), empty = document.getElementById('sheet-empty'), says = document.getElementById('sheet-says');
  var part = document.getElementById('sheet-kept'), list = document.getElementById('sheet-list'), text = document.getElementById('sheet-csv');
  var file = document.getElementById('sheet-file'), address = '';
  // Kept under the guide's place on its host, which outlasts its name.
  var here = location.pathname.replace(/[^/]*$/, ''), place = 'guide-visits ' + here, draft = 'guide-visits-draft ' + here;
  var visits = [], edited = '';
  var fields = ['water', 'beat', 'date', 'start', 'end', 'method', 'amount', 'unit', 'by', 'remarks'];
  var groups = kit.all('[name=scope]', form), kinds = kit.all('[data-unnamed]', form);
  var how = document.getElementById('sheet-how'), nothing = document.getElementById('sheet-nothing'), full = document.getElementById('sheet-full'), twice = document.getElementById('sheet-twice');
  var n = 0;

  // Every name that a find may go by, as it is looked up, with the fly's group.
  function plain(name) { return name.toLowerCase().normalize('NFD').replace(/\p{Mn}/gu, '').trim(); }
  var known = {};
  [data.wide, data.flies].forEach(function (names) { Object.keys(names).forEach(function (n) { known[plain(n)] = names[n]; }); });
  // groupOf gives the group of a fly or wider word, '' where it may be of several; undefined for a name not known.
  function groupOf(name) { return known[plain(name)]; }

  function field(label, control) { return kit.make('label', {}, label + ' ', control); }

  // A row of the net: a fly, its stage, sex, number and lengths.
  function add(find, focus) {
    var f = find || { fly: '', stage: '', sex: '', count: '', lengths: '' };
    var id = 'find-' + (++n);
    var fly = kit.make('input', { name: 'fly', list: 'flies', required: true, autocomplete: 'off', id: id });
    var stage = kit.make('select', { name: 'stage' }), sex = kit.make('select', { name: 'sex' });
    var count = kit.make('input', { name: 'count', inputmode: 'numeric', pattern: '[1-9][0-9]{0,5}', size: 4, autocomplete: 'off' });
    var many = kit.make('input', { name: 'lengths', inputmode: 'text', autocomplete: 'off', size: 12 });
    ['', 'male', 'female'].forEach(function (s) { sex.append(kit.make('option', { value: s }, s ? kit.say('sheet.sex.' + s) : kit.say('sheet.not_seen'))); });
    fly.value = f.fly;
    count.value = f.count;
    many.value = f.lengths;
    sex.value = f.sex;
    function stages() { // only those that the fly's group has
      var was = stage.value || f.stage, group = groupOf(fly.value);
      var can = group ? data.stages[group] : Object.keys(data.words);
      stage.textContent = '';
      stage.append(kit.make('option', { value: '' }, kit.say('sheet.not_seen')));
      can.forEach(function (s) { stage.append(kit.make('option', { value: s }, data.words[s])); });
      stage.value = can.indexOf(was) >= 0 ? was : '';
    }
    stages();
    fly.addEventListener('change', stages);
    many.addEventListener('input', function () { many.setCustomValidity(lengths(many.value) === null ? kit.say('sheet.bad_lengths') : ''); });
    var drop = kit.make('button', { type: 'button' }, kit.say('sheet.remove'));
    var li = kit.make('li', { class: 'fields' }, field(kit.say('sheet.fly'), fly), field(kit.say('sheet.stage'), stage), field(kit.say('sheet.sex_of'), sex),
      field(kit.say('sheet.count'), count), field(kit.say('sheet.lengths'), many), drop);
    drop.addEventListener('click', function () {
      li.remove();
      count_();
      check();
      save();
      document.getElementById('sheet-add').focus();
    });
    finds.append(li);
    count_();
    check();
    if (focus) fly.focus();
  }
  function of(li, name) { return tidy(kit.one('[name=' + name + ']', li).value); }
  // The rows in which a kind of unnamed flies is counted.
  function rowsOf(kind) {
    return kit.all('li', finds).filter(function (li) {
      return of(li, 'fly') === kind.dataset.unnamed && of(li, 'stage') === kind.dataset.stage && !of(li, 'sex');
    });
  }
  function count_() {
    empty.hidden = finds.children.length > 0;
    kinds.forEach(function (kind) {
      kit.one('output', kind).value = rowsOf(kind).reduce(function (sum, li) { return sum + (Number(of(li, 'count')) || 1); }, 0);
    });
  }
  // step counts one more of a kind, or one fewer.
  function step(kind, by) {
    var li = rowsOf(kind).pop(), control = li && kit.one('[name=count]', li), n = li ? (Number(control.value) || 1) + by : by;
    if (!li && n > 0) add({ fly: kind.dataset.unnamed, stage: kind.dataset.stage, sex: '', count: '1', lengths: '' }, false);
    else if (li && n > 0) control.value = n;
    else if (li) li.remove();
    count_();
    check();
    save();
  }

  function read() {
    var v = {};
    fields.forEach(function (k) { v[k] = tidy(form.elements[k].value); });
    v.groups = groups.filter(function (g) { return g.checked; }).map(function (g) { return g.value; });
    v.nothing = nothing.checked;
    v.finds = kit.all('li', finds).map(function (li) {
      return { fly: of(li, 'fly'), stage: of(li, 'stage'), sex: of(li, 'sex'), count: of(li, 'count'), lengths: of(li, 'lengths') };
    });
    return v;
  }
  function fillIn(v) {
    fields.forEach(function (k) { if (v[k] !== undefined) form.elements[k].value = v[k]; });
    groups.forEach(function (g) { g.checked = v.groups.indexOf(g.value) >= 0; });
    finds.textContent = '';
    nothing.checked = v.nothing === undefined ? !v.finds.length : v.nothing; // as older copies kept it
    v.finds.forEach(function (f) { add(f, false); });
    count_();
    beats();
    check();
  }
  function beats() {
    var l = document.getElementById('beats');
    l.textContent = '';
    (data.beats[form.elements.water.value] || []).forEach(function (b) { l.append(kit.make('option', { value: b })); });
  }
  // check refuses what no guide takes: a visit yet to be made, effort of nothing, an empty net without what
  // was looked for. The page may stay open for days, so the day is asked each time.
  function check() {
    var e = form.elements, amount = e.amount.value.replace(',', '.');
    e.date.max = kit.iso(new Date());
    e.amount.setCustomValidity(amount && !(Number(amount) > 0) ? kit.say('sheet.no_effort') : '');
    nothing.disabled = finds.children.length > 0;
    nothing.checked = nothing.checked && !nothing.disabled;
    full.hidden = nothing.checked;
    nothing.setCustomValidity(nothing.checked || nothing.disabled ? '' : kit.say('sheet.nil_or'));
    twice.hidden = !sameAs(read());
    twice.textContent = twice.hidden ? '' : kit.say('sheet.doubt.twice', { water: e.water.value, visit: sameAs(read()).visit });
    groups[0].setCustomValidity(finds.children.length || groups.some(function (g) { return g.checked; }) ? '' : kit.say('sheet.no_scope'));
  }

  // sameAs finds a visit that is kept already: of the same water, day and start.
  function sameAs(v) {
    return visits.filter(function (x) { return v.water && x.visit !== edited && x.water === v.water && x.date === v.date && x.start === v.start; })[0];
  }

  // doubts are what a guide would warn of, and perhaps is meant all the same.
  function doubts(v) {
    var list = [], beats = data.beats[v.water] || [];
    function doubt(key, args) { list.push(kit.say('sheet.doubt.' + key, args)); }
    var other = sameAs(v);
    if (other) doubt('twice', { water: v.water, visit: other.visit });
    if (v.start && v.end && v.end < v.start && data.overnight.indexOf(v.method) < 0) doubt('end', {});
    if (v.beat && beats.length && !beats.some(function (b) { return plain(b) === plain(v.beat); })) doubt('beat', { beat: v.beat, water: v.water, beats: beats.join(', ') });
    v.finds.forEach(function (f) {
      if (groupOf(f.fly) === undefined) doubt('fly', { fly: f.fly });
      else if (!f.stage) doubt('stage', { fly: f.fly });
      if (f.count && lengths(f.lengths) && lengths(f.lengths).split(' ').length > Number(f.count)) doubt('lengths', { fly: f.fly });
    });
    return list;
  }
  function save() { kit.keep(draft, { visit: edited, form: read() }); }

  // A new sheet: the same water, method and person, today, and nothing in the net.
  function fresh(v) {
    edited = '';
    fillIn({ water: v.water, beat: v.beat, date: kit.iso(new Date()), start: '', end: '', method: v.method, amount: v.amount, unit: v.unit,
      by: v.by, remarks: '', groups: v.groups, nothing: false, finds: [] });
    kit.keep(draft, null);
  }

  // again reads what is kept: another tab may have added to it.
  function again() {
    var l = kit.kept(place);
    if (Array.isArray(l)) visits = l;
  }

  // earlier takes in what an older copy of this page kept under a guide's name: its own, and that of waters it knows.
  function earlier() {
    var keys = [], waters = kit.all('option', form.elements.water).map(function (o) { return o.value; });
    try { keys = Object.keys(localStorage).filter(function (k) { return /^guide-sheet (?!draft)/.test(k); }); } catch (e) { return; }
    keys.forEach(function (k) {
      var l = kit.kept(k), mine = [];
      if (!Array.isArray(l)) return;
      mine = l.filter(function (v) { return k === 'guide-sheet ' + data.guide || waters.indexOf(v.water) > 0; });
      again();
      visits = visits.concat(mine.filter(function (v) { return !visits.some(function (x) { return x.visit === v.visit; }); }));
      if (mine.length && kit.keep(place, visits)) kit.keep(k, l.filter(function (v) { return mine.indexOf(v) < 0; }));
    });
  }

  function show() {
    part.hidden = visits.length === 0;
    list.textContent = '';
    visits.forEach(function (v) {
      var what = v.finds.length ? v.finds.map(function (f) { return f.fly + (f.count ? ' × ' + f.count : ''); }).join(', ') : kit.say('sheet.nothing');
      var edit = kit.make('button', { type: 'button', class: 'quiet' }, kit.say('sheet.edit')), drop = kit.make('button', { type: 'button', class: 'quiet' }, kit.say('sheet.remove'));
      var name = v.water + ', ' + v.date + (v.start ? ' ' + v.start : '');
      edit.setAttribute('aria-label', kit.say('sheet.edit') + ': ' + name);
      drop.setAttribute('aria-label', kit.say('sheet.remove') + ': ' + name);
      edit.addEventListener('click', function () {
        edited = v.visit;
        fillIn(v);
        says.textContent = kit.say('sheet.editing', { visit: v.visit });
        form.elements.water.focus();
      });
      drop.addEventListener('click', function () {
        if (!window.confirm(kit.say('sheet.sure', { n: 1 }))) return;
        again();
        visits = visits.filter(function (x) { return x.visit !== v.visit; });
        kit.keep(place, visits);
        show();
        (visits.length ? document.getElementById('kept-h') : form.elements.water).focus();
      });
      list.append(kit.make('li', {}, kit.make('b', {}, name), ' ', edit, ' ', drop, kit.make('p', { class: 'about' }, what)));
    });
    text.value = csv(visits);
    if (address) URL.revokeObjectURL(address);
    address = URL.createObjectURL(new Blob([text.value], { type: 'text/csv' }));
    file.href = address;
    file.download = 'visits-' + kit.iso(new Date()) + '.csv';
  }

  form.addEventListener('submit', function (e) {
    e.preventDefault();
    var v = read(), doubtful = doubts(v);
    if (doubtful.length && !window.confirm(doubtful.concat(kit.say('sheet.all_the_same')).join('\n\n'))) return;
    again();
    v.scope = scope(v.groups, data.bred, groups.length);
    v.effort = v.amount ? v.amount.replace(',', '.') + ' ' + v.unit : '';
    var at = visits.findIndex(function (x) { return x.visit === edited; });
    v.visit = at >= 0 ? edited : mark(v, visits.map(function (x) { return x.visit; }));
    if (at >= 0) visits[at] = v;
    else visits.push(v);
    if (!kit.keep(place, visits)) {
      if (at < 0) visits.pop();
      says.textContent = kit.say('sheet.no_room');
      return;
    }
    kit.stay();
    fresh(v);
    show();
    says.textContent = kit.say('sheet.was_kept', { visit: v.visit });
  });
  form.addEventListener('input', function () {
    count_();
    check();
    save();
  });
  form.addEventListener('focusin', check);
  form.addEventListener('invalid', function (e) { if (how.contains(e.target)) how.open = true; }, true); // to be seen where it is refused
  window.addEventListener('storage', function () { again(); show(); });
  form.elements.water.addEventListener('change', beats);
  // Flies that nobody can name are counted by their group, to be named later.
  kinds.forEach(function (kind) {
    kit.all('button', kind).forEach(function (b) { b.addEventListener('click', function () { step(kind, Number(b.dataset.by)); }); });
  });
  document.getElementById('sheet-add').addEventListener('click', function () { add(null, true); });
  document.getElementById('sheet-clear').addEventListener('click', function () {
    fresh(read());
    says.textContent = '';
    form.elements.water.focus();
  });
  document.getElementById('sheet-copy').addEventListener('click', function () {
    function old() {
      text.select();
      return document.execCommand('copy') ? Promise.resolve() : Promise.reject(new Error('copy'));
    }
    (navigator.clipboard && window.isSecureContext ? navigator.clipboard.writeText(text.value).catch(old) : old()).then(
      function () { says.textContent = kit.say('sheet.copied'); },
      function () { text.focus(); text.select(); });
  });
  document.getElementById('sheet-empty-all').addEventListener('click', function () {
    if (!window.confirm(kit.say('sheet.sure', { n: visits.length }))) return;
    visits = [];
    kit.keep(place, visits);
    show();
    form.elements.water.focus();
  });

  form.elements.date.value = kit.iso(new Date());
  again();
  check();
  earlier();
  var left = kit.kept(draft);
  if (left && left.form) {
    edited = left.visit || '';
    fillIn(left.form);
    says.textContent = kit.say('sheet.left');
  }
  form.hidden = false;
  show();
}());
