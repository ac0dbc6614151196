// This copy of the guide: how old it is.
(function () {
  'use strict';
  var root = document.documentElement;

  // Months since it was built, once there are two of them.
  function age() {
    var e = document.querySelector('.age'), built = root.dataset.built;
    if (!e || !built) return;
    var b = built.split('-'), now = new Date();
    var months = (now.getFullYear() - b[0]) * 12 + now.getMonth() + 1 - b[1] - (now.getDate() < b[2] ? 1 : 0);
    if (months < 2) return;
    e.textContent = e.dataset.age.replace('{n}', months);
    e.hidden = false;
  }
  age();
}());
