(() => {
  "use strict";
  const all = new Map();
  for (const part of document.querySelectorAll("[data-circuit]")) {
    for (const number of part.dataset.circuit.split(" ")) {
      if (!all.has(number)) all.set(number, []);
      all.get(number).push(part);
    }
  }
  const said = document.getElementById("traced");
  let lit = new Set();
  let shown = "";
  let muted = false;

  function clear() {
    for (const part of lit) {
      part.classList.remove("lit");
      part.removeAttribute("aria-current");
    }
    lit = new Set();
    shown = "";
    document.body.classList.remove("tracing");
    said.textContent = "";
  }

  function show(numbers) {
    if (numbers === shown) return;
    clear();
    shown = numbers;
    for (const number of numbers.split(" ")) {
      for (const part of all.get(number) || []) lit.add(part);
    }
    let rows = 0;
    for (const part of lit) {
      part.classList.add("lit");
      part.setAttribute("aria-current", "true");
      if (part.localName === "tr") rows += 1;
    }
    const sheets = new Set([...lit].map((part) => part.closest("figure")).filter(Boolean)).size;
    document.body.classList.add("tracing");
    said.textContent = said.dataset.words
      .replace("{circuits}", numbers.split(" ").join(", "))
      .replace("{sheets}", String(sheets))
      .replace("{rows}", String(rows));
  }

  const carrier = (target) => (target instanceof Element ? target.closest("[data-circuit]") : null);
  const focused = () => carrier(document.activeElement);

  document.addEventListener("pointerover", (event) => {
    const part = carrier(event.target) || (muted ? null : focused());
    if (part) show(part.dataset.circuit);
    else clear();
  });
  document.addEventListener("pointerleave", clear);
  document.addEventListener("focusin", (event) => {
    muted = false;
    const part = carrier(event.target);
    if (part) show(part.dataset.circuit);
    else clear();
  });
  document.addEventListener("focusout", (event) => {
    if (!event.relatedTarget) clear();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    muted = true;
    clear();
  });
})();
