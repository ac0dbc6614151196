// Loads the page again when the desk shows something newer than what it was made from, or knows more of it.
(function () {
  'use strict';
  var page = document.currentScript.getAttribute('data-version');
  var known = document.currentScript.getAttribute('data-found');
  var news = new EventSource('/-/news');
  news.onmessage = function (event) {
    var now = event.data.split(' ');
    if (page === null ? now[1] !== known : now[0] !== page) { news.close(); location.reload(); }
  };
})();
