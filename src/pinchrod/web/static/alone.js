// The page that a tablet shows by itself: once the server is heard, all is sent, and what came of it could be read (or
// taken back), on to the page that was wanted.
"use strict";
(() => {
  const AGAIN = 3000;
  const READ = 10000;
  const HOME = "/bench";
  const band = document.getElementById("band");
  let told = -Infinity; // when the band last said something

  const unsent = () => !/^Unsent: 0$/.test(document.getElementById("unsent").textContent);
  const reading = () => band.hasChildNodes() && performance.now() - told < READ;
  const typing = () => document.getElementById("code").value !== "";

  async function heard() {
    try {
      return (await fetch("/health", { cache: "no-store", signal: AbortSignal.timeout(AGAIN) })).ok;
    } catch {
      return false;
    }
  }

  async function goOn() {
    const busy = () => unsent() || typing() || reading();
    if (busy() || !await heard() || busy()) return;
    if (location.pathname === "/alone") location.replace(HOME);
    else location.reload();
  }

  new MutationObserver(() => { told = performance.now(); }).observe(band, { childList: true });
  setInterval(goOn, AGAIN);
})();
