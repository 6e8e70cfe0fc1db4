// Lengths said again as they are understood, in millimetres and inches: beside their field, below the rack's rows.
"use strict";
(() => {
  const WAIT = 150; // ms after the last letter
  const waiting = new WeakMap();

  async function understood(words, of, comma) {
    if (!words.trim()) return "";
    try {
      const answer = await fetch(`/lengths?said=${encodeURIComponent(words)}&of=${of}&comma=${comma}`);
      return answer.ok ? await answer.text() : "";
    } catch {
      return ""; // the server is not heard: the bar on top says so
    }
  }

  // Where it is said: beside the field; of a cell of the rack, on the one line below the rows.
  function place(field) {
    const beside = document.getElementById(`${field.id}-echo`);
    if (beside) return [beside, "", "", "no"];
    const form = field.closest("[data-grid]"), cell = field.closest("[data-cell]");
    const below = form && form.querySelector("[data-grid-echo]");
    if (!below || !cell) return [];
    return [below, `${field.getAttribute("aria-label").replace(/, mm$/, "")}: `, cell.dataset.cell, form.dataset.comma];
  }

  function say(field) {
    const [where, called, of, comma] = place(field);
    if (!where) return;
    clearTimeout(waiting.get(where));
    waiting.set(where, setTimeout(async () => {
      const words = of === "none" ? "" : await understood(field.value, of, comma);
      const told = words && called + words;
      if (where.textContent !== told) where.textContent = told;
    }, WAIT));
  }

  document.addEventListener("input", (event) => { if (event.target.matches("input")) say(event.target); });
  document.addEventListener("focusin", (event) => { if (event.target.matches("[data-grid] .grid input")) say(event.target); });
})();
