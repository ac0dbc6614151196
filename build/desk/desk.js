// Loads the page again when the desk has a newer state than the one it was made from.
(function () {
  'use strict';
  var mine = document.currentScript.getAttribute('data-version');
  var news = new EventSource('/-/news');
  news.onmessage = function (event) {
    if (event.data !== mine) { news.close(); location.reload(); }
  };
})();
