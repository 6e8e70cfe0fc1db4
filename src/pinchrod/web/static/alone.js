// The page that a tablet shows by itself: once the server is heard, and all is sent, on to the page that was wanted.
"use strict";
(() => {
  const AGAIN = 3000;
  const HOME = "/bench";

  const unsent = () => !/^Unsent: 0$/.test(document.getElementById("unsent").textContent);
  const typing = () => document.getElementById("code").value !== "";

  async function heard() {
    try {
      return (await fetch("/health", { cache: "no-store", signal: AbortSignal.timeout(AGAIN) })).ok;
    } catch {
      return false;
    }
  }

  async function goOn() {
    if (unsent() || typing() || !await heard()) return;
    if (location.pathname === "/alone") location.replace(HOME);
    else location.reload();
  }

  setInterval(goOn, AGAIN);
})();
