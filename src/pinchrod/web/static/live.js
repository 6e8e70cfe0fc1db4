// Every page: news from the server, focus on what is wrong, a button that is pressed once.
"use strict";
(() => {
  const bar = document.getElementById("state");
  const OLD = 15000;
  const AGAIN = 5000;
  const LET_IN = document.documentElement.dataset.device !== "nobody";
  let heard = Date.now();
  let clock = "";

  const time = (moment) => moment.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

  function listen() {
    if (!LET_IN) return;
    let line = null;
    const hear = () => {
      heard = Date.now();
      clock = time(new Date());
      if (bar.dataset.kind === "old") show("", "");
    };
    let seen = document.documentElement.dataset.news;
    const change = (event) => {
      hear();
      if (event.data !== seen) document.body.dispatchEvent(new CustomEvent("live"));
      seen = event.data;
    };
    const open = () => {
      line = new EventSource("/live");
      line.addEventListener("beat", hear);
      line.addEventListener("change", change);
      line.addEventListener("error", () => { // a browser gives up for good where the server said that it is busy
        if (line.readyState === EventSource.CLOSED) setTimeout(open, AGAIN);
      });
    };
    open();
    window.addEventListener("pagehide", () => line.close());
    setInterval(() => {
      if (Date.now() - heard > OLD) show("old", `The server is not heard. What stands here is as of ${clock || "the page's loading"}.`);
    }, 1000);
  }

  function show(kind, words) {
    bar.dataset.kind = kind;
    bar.textContent = words;
  }

  function once(event) {
    const form = event.target;
    if (form.method !== "post" || event.defaultPrevented) return;
    if (form.dataset.sent) { event.preventDefault(); return; }
    form.dataset.sent = "yes";
    setTimeout(() => { delete form.dataset.sent; }, 5000);
  }

  // A part put anew: what was typed or unfolded in it stays, and so does one's place. Nothing may settle between taking
  // the part out and bringing back what was typed (see the head of every page), or a letter typed meanwhile is lost.

  let last = null; // what had the focus last; a button that is pressed once is disabled, and loses it
  const before = new WeakMap(); // two parts may be put anew at once

  const changed = (field) => field.type === "checkbox" || field.type === "radio"
    ? field.checked !== field.defaultChecked : field.defaultValue !== undefined && field.value !== field.defaultValue;

  function name(control) {
    const form = control.form || control.closest("form");
    const words = control.matches("input, textarea") ? "" : (control.querySelector("summary") || control).textContent.trim();
    const value = control.type === "text" || control.matches("textarea") ? "" : control.value || "";
    return [control.tagName, form ? form.getAttribute("action") : "", control.id, control.name || "", value, words].join("|");
  }

  const controls = (part) => [...part.querySelectorAll("a[href], button, input:not([type=hidden]), textarea, select, summary, [tabindex]")];
  const found = (part, called) => controls(part).find((control) => name(control) === called);

  function remember(event) {
    const part = event.detail.ctx.target;
    if (!part || !part.querySelectorAll) return;
    const at = document.activeElement === document.body && last && last.disabled ? last : document.activeElement;
    const within = at && at !== part && part.contains(at);
    before.set(event.detail.ctx, {
      part,
      at: within ? name(at) : "",
      tick: within && at.matches(".m-tick"),
      marks: within && at.type === "text" ? [at.selectionStart, at.selectionEnd] : null,
      typed: controls(part).filter(changed).map((field) => [name(field), field.value, field.checked]),
      unfolded: [...part.querySelectorAll("details")].map((each) => [name(each), each.open]),
    });
  }

  function bringBack(event) {
    const was = before.get(event.detail.ctx);
    if (!was) return;
    const { part: old, at, tick, marks, typed, unfolded } = was;
    const part = old.isConnected ? old : old.id && document.getElementById(old.id);
    if (!part) return;
    for (const [called, value, checked] of typed) {
      const field = found(part, called);
      if (field) Object.assign(field, field.type === "checkbox" || field.type === "radio" ? { checked } : { value });
    }
    for (const [called, open] of unfolded) {
      const fold = [...part.querySelectorAll("details")].find((each) => name(each) === called);
      if (fold) fold.open = open;
    }
    if (at) stand(part, found(part, at) || (tick && part.querySelector(".m-next")), marks);
  }

  function stand(part, control, marks) {
    if (!control && !part.hasAttribute("tabindex")) part.tabIndex = -1;
    (control || part).focus({ preventScroll: true });
    if (control && marks && control.type === "text") control.setSelectionRange(...marks);
  }

  document.addEventListener("focusin", (event) => { last = event.target; });
  document.addEventListener("htmx:before:swap", remember);
  document.addEventListener("htmx:after:swap", bringBack);
  document.addEventListener("keydown", (event) => { // held down, Enter presses once
    if (event.repeat && event.key === "Enter" && event.target.closest("button")) event.preventDefault();
  });

  // On a safe line a device may keep the pages among its programs, and shows one by itself while the server is away.
  function alone() {
    if (!window.isSecureContext || !navigator.serviceWorker || !LET_IN) return;
    const manifest = document.createElement("link");
    manifest.rel = "manifest";
    manifest.href = "/pinchrod.webmanifest";
    document.head.append(manifest);
    navigator.serviceWorker.register("/worker.js").catch(() => { /* an extra: all else works without */ });
  }

  const wrong = document.querySelector("[data-focus]");
  if (wrong) wrong.focus();
  document.addEventListener("submit", once);
  listen();
  alone();
})();
