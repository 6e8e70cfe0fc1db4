// Beside the pages, on a safe line only: one page and its files are kept, and shown while the server is not heard.
// No page of the workshop is kept: what it says of pieces and papers would be old.
"use strict";
const BOX = {{ box|tojson }};
const KEPT = {{ kept|tojson }};
const PAGE = {{ page|tojson }};
const NOT_THERE = new Set([502, 503, 504]); // what a proxy says when it does not hear the server, or not in time
const OURS = "content-security-policy"; // on every answer of the server itself
const PATIENCE = 5000; // ms until it is asked whether a server that does not answer is there at all

self.addEventListener("install", (event) => {
  const fresh = KEPT.map((each) => new Request(each, { credentials: "omit", cache: "no-cache" }));
  event.waitUntil(caches.open(BOX).then((box) => box.addAll(fresh)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("pinchrod-") && name !== BOX;
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

async function isHeard() {
  try {
    return (await fetch("/health", { cache: "no-store", signal: AbortSignal.timeout(PATIENCE) })).ok;
  } catch {
    return false;
  }
}

// A page may take its time; a server that says nothing at all is away, and browsers would wait for it for minutes.
async function answerOf(asked) {
  let waiting = true;
  const stop = new AbortController(); // what is given up would hang on, and the next for the same page wait behind it
  const page = fetch(asked, { signal: stop.signal }).catch(() => null);
  const away = (async () => {
    do await new Promise((done) => setTimeout(done, PATIENCE));
    while (waiting && await isHeard());
    return null;
  })();
  const answer = await Promise.race([page, away]);
  waiting = false;
  if (!answer) stop.abort();
  return answer;
}

async function shown(asked) {
  const answer = await answerOf(asked);
  const proxys = answer && NOT_THERE.has(answer.status) && !answer.headers.has(OURS);
  if (answer && (!proxys || await isHeard())) return answer;
  return (await (await caches.open(BOX)).match(PAGE)) || answer || Response.error();
}

async function file(asked) {
  const box = await caches.open(BOX);
  return (await box.match(asked)) || fetch(asked);
}

self.addEventListener("fetch", (event) => {
  const asked = event.request;
  if (asked.method !== "GET") return;
  if (asked.mode === "navigate") event.respondWith(shown(asked));
  else if (KEPT.includes(asked.url.slice(self.location.origin.length))) event.respondWith(file(asked));
});
