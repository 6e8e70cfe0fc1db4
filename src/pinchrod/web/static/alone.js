// The page that a tablet shows by itself: once the server is heard, all is sent, and what came of it could be read (or
// taken back), on to the page that was wanted.
"use strict";
(() => {
  const AGAIN = 3000;
  const READ = 10000;
  const HOME = "/bench";
  const PATIENCE = 60000;
  const band = document.getElementById("band");
  let told = -Infinity; // when the band last said something
  let went = -Infinity; // when it last went on: a page may take its time, and asked for anew it would begin again

  const unsent = () => !/^Unsent: 0$/.test(document.getElementById("unsent").textContent);
  const reading = () => band.hasChildNodes() && performance.now() - told < READ;
  const going = () => performance.now() - went < PATIENCE;
  const typing = () => document.getElementById("code").value !== "";

  async function heard() {
    try {
      return (await fetch("/health", { cache: "no-store", signal: AbortSignal.timeout(AGAIN) })).ok;
    } catch {
      return false;
    }
  }

  async function goOn() {
    const busy = () => unsent() || typing() || reading() || going();
    if (busy() || !await heard() || busy()) return;
    went = performance.now();
    if (location.pathname === "/alone") location.replace(HOME);
    else location.reload();
  }

  new MutationObserver(() => { told = performance.now(); }).observe(band, { childList: true });
  setInterval(goOn, AGAIN);
})();
