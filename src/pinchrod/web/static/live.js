// Every page: news from the server, focus on what is wrong, a button that is pressed once.
"use strict";
(() => {
  const bar = document.getElementById("state");
  const OLD = 15000;
  let heard = Date.now();
  let clock = "";

  const time = (moment) => moment.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

  function listen() {
    if (document.documentElement.dataset.device === "nobody") return;
    const line = new EventSource("/live");
    const hear = () => {
      heard = Date.now();
      clock = time(new Date());
      if (bar.dataset.kind === "old") show("", "");
    };
    let first = true;
    line.addEventListener("beat", hear);
    line.addEventListener("change", () => {
      hear();
      if (!first) document.body.dispatchEvent(new CustomEvent("live"));
      first = false;
    });
    line.addEventListener("error", () => { first = false; });
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

  const wrong = document.querySelector("[data-focus]");
  if (wrong) wrong.focus();
  document.addEventListener("submit", once);
  listen();
})();
