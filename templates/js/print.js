// The button that prints a page made for paper. Without scripts the browser's own menu does.
(() => {
  "use strict";
  for (const b of document.querySelectorAll("[data-print]")) {
    b.hidden = false;
    b.addEventListener("click", () => print());
  }
})();
