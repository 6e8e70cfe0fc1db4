// Beside the pages, on a safe line only: one page and its files are kept, and shown while the server is not heard.
// No page of the workshop is kept: what it says of pieces and papers would be old.
"use strict";
const BOX = {{ box|tojson }};
const KEPT = {{ kept|tojson }};
const PAGE = {{ page|tojson }};
const NOT_THERE = new Set([502, 503, 504]); // what a proxy says when it does not hear the server
const OURS = "content-security-policy"; // on every answer of the server itself

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

async function shown(asked) {
  const box = await caches.open(BOX);
  try {
    const answer = await fetch(asked);
    const away = NOT_THERE.has(answer.status) && !answer.headers.has(OURS);
    return away ? (await box.match(PAGE)) || answer : answer;
  } catch {
    return (await box.match(PAGE)) || Response.error();
  }
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
