"use strict";
// Loads the page again when the preview shows something else than this page does.
(() => {
  const mark = document.querySelector("#preview script").dataset.mark;
  const stream = new EventSource(`/-/events?mark=${mark}`);
  stream.addEventListener("built", (event) => {
    if (event.data !== mark) location.reload();
  });
  stream.onerror = () => document.documentElement.classList.add("preview-lost");
  stream.onopen = () => document.documentElement.classList.remove("preview-lost");
})();
