// Scans: taken wherever one stands on a page, kept on this tablet until the server says that they are safe.
"use strict";
(() => {
  const device = document.documentElement.dataset.device;
  if (device !== "tablet" && device !== "office") return;

  const PREFIX = "pinchrod.said.";
  const CHOSEN = "pinchrod.deed";
  const TWICE = 2000;
  const AGAIN = 5000;
  const WAIT = 10000;
  const OPEN = "The line is plain HTTP, so nothing is sent once these pages are closed: leave one open until nothing is unsent.";
  const form = document.querySelector("form[data-scan]");
  const field = form && form.elements.code;
  let last = { code: "", deed: "", at: 0 };
  let typed = "";
  let sending = "";
  let leaving = false;
  let counter = 0;
  let told = ""; // the key of what the band speaks of, so that the list does not say it again
  const PAGE = newKey(); // this loading of the page

  // What is kept: one entry for each thing said, so that two pages never write over each other's.

  function newKey() {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  const beside = new Map(); // where the tablet cannot keep anything: lost with the page, and it says so

  const afloat = new Map(); // what this page said and cannot yet call kept: the last writing of each, by its key

  function keep(item) {
    const now = write((shelf) => shelf.put(item));
    afloat.set(item.key, now);
    now.then(() => {
      if (afloat.get(item.key) !== now) return;
      afloat.delete(item.key);
      tell();
    });
    put(item);
  }

  function put(item) {
    try {
      localStorage.setItem(PREFIX + item.key, JSON.stringify(item));
      beside.delete(item.key);
    } catch {
      beside.set(item.key, item);
    }
  }

  function drop(key) {
    write((shelf) => shelf.delete(key));
    gone.add(key);
    beside.delete(key);
    try { localStorage.removeItem(PREFIX + key); } catch { /* nothing is kept there */ }
  }

  function kept() {
    const found = [...beside.values()];
    try {
      for (let place = 0; place < localStorage.length; place += 1) {
        const name = localStorage.key(place);
        if (!name.startsWith(PREFIX)) continue;
        try { found.push(JSON.parse(localStorage.getItem(name))); } catch { /* no entry of ours */ }
      }
    } catch { /* nothing can be kept there */ }
    return found.filter((item) => item && item.key && item.said).sort((a, b) => a.at - b.at || a.turn - b.turn);
  }

  // Kept a second time: browsers bring what stands above to the disk only seconds later, and a battery that goes flat
  // takes it along. This they are told to make sure of at once. What comes back twice counts once, by its key.

  const SAID = "said";
  const gone = new Set(); // keys that this page has dropped
  const box = new Promise((done) => {
    try {
      const asked = indexedDB.open("pinchrod", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(SAID, { keyPath: "key" });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => done(null);
    } catch { done(null); }
  });
  let written = Promise.resolve(); // done once all that was said so far is on the disk, or cannot be brought there
  write(compared);

  function write(change) {
    const now = box.then((there) => there && new Promise((done) => {
      const work = there.transaction(SAID, "readwrite", { durability: "strict" });
      work.oncomplete = work.onabort = done;
      change(work.objectStore(SAID));
    }));
    written = Promise.allSettled([written, now]);
    return written;
  }

  // As the page begins: what stands in one of the two only, a page having been closed or a battery flat, into the other.
  function compared(shelf) {
    const asked = shelf.getAll();
    asked.onsuccess = () => {
      const here = new Set(kept().map((item) => item.key));
      const there = new Set(asked.result.map((item) => item.key));
      kept().filter((item) => !there.has(item.key)).forEach((item) => shelf.put(item));
      asked.result.filter((item) => !here.has(item.key) && !gone.has(item.key)).forEach(put);
      tell();
      send();
    };
  }

  async function allWritten() {
    for (let seen = null; seen !== written;) {
      seen = written;
      await seen;
    }
  }

  const unsent = () => kept().filter((item) => item.state === "kept");

  // What is shown: always a word, a sign and a colour, until the next action.

  const SHOWN = {
    "kept": ["◌", "now", "Kept on this tablet"],
    "sending": ["…", "now", "Sending"],
    "ledger": ["✓", "good", "In the ledger"],
    "refused": ["✕", "stop", "Refused"],
    "asks": ["▲", "doubt", "Look first"],
    "twice": ["✓", "now", "Counted once"],
    "found": ["●", "now", "Found"],
  };

  function make(name, words, kind) {
    const made = document.createElement(name);
    if (words) made.textContent = words;
    if (kind) made.className = kind;
    return made;
  }

  function band() {
    const there = document.getElementById("band");
    if (there) return there;
    const made = make("div");
    made.id = "band";
    made.setAttribute("role", "status");
    made.setAttribute("aria-live", "assertive");
    document.getElementById("main").prepend(made);
    return made;
  }

  // What came of it is read from 1.5 m; why, and what to do, from nearer by.
  function show(state, about, why, ...more) {
    told = "";
    const [sign, kind, word] = SHOWN[state];
    const line = make("p", "", `band ${kind}`);
    const mark = make("span", sign, "sign-of");
    mark.setAttribute("aria-hidden", "true");
    const verdict = make("span", "", "verdict");
    verdict.append(mark, " ", ...unbroken(about ? `${word}: ${cutShort(about)}` : word));
    line.append(verdict);
    if (why) line.append(" ", spoken(why, "why"));
    band().replaceChildren(line, ...more);
    if (state === "refused" || state === "asks") sound(220);
    if (state === "ledger" || state === "twice") sound(880);
  }

  // No mark is parted at the end of a line.
  function unbroken(words) {
    return words.split(/(?<= )/).map((word) => (word.includes("-") ? make("span", word, "once") : word));
  }

  function spoken(words, kind) {
    const made = make("span", "", kind);
    made.append(...unbroken(words));
    return made;
  }

  const LONGEST = 30; // letters: what is no mark of ours may be of any length
  const cutShort = (words) => (words.length > LONGEST ? `${words.slice(0, LONGEST)} …` : words);

  function button(words, does, kind) {
    const made = make("button", "", kind);
    made.type = "button";
    made.append(spoken(words));
    made.addEventListener("click", does);
    return made;
  }

  let air = null;
  function sound(pitch) {
    try {
      air = air || new AudioContext();
      const tone = air.createOscillator();
      const loud = air.createGain();
      tone.frequency.value = pitch;
      loud.gain.value = 0.2;
      tone.connect(loud).connect(air.destination);
      tone.start();
      tone.stop(air.currentTime + 0.15);
    } catch { /* an extra: the band says it all */ }
  }

  function tell() {
    const waiting = kept();
    const count = waiting.filter((item) => item.state === "kept").length;
    const stopped = waiting.length - count;
    let tag = document.getElementById("unsent");
    if (!tag) {
      tag = make("p");
      tag.id = "unsent";
      tag.setAttribute("role", "status");
      (document.querySelector("header") || document.body).append(tag);
    }
    tag.textContent = `Unsent: ${count}${stopped ? ` · refused: ${stopped}${document.getElementById("scans") ? "" : ", see Bench"}` : ""}`;
    tag.className = count || stopped ? "some" : "";
    tag.hidden = !(count || stopped || field);
    list(waiting);
  }

  function list(waiting) {
    const there = document.getElementById("scans");
    if (!there) return;
    there.replaceChildren(...waiting.filter((item) => item.key !== told).map(line));
    if (beside.size) there.append(make("li", "This tablet can keep nothing: leave this page open until all is sent."));
    else if (!window.isSecureContext) there.append(make("li", OPEN, "stay-open"));
  }

  function line(item) {
    const goes = item.state === "kept" && (item.key === sending || afloat.has(item.key));
    const state = goes ? "sending" : item.state;
    const [sign, , word] = SHOWN[state];
    const made = make("li", "", state);
    const mark = make("span", sign);
    mark.setAttribute("aria-hidden", "true");
    made.append(mark, ` ${item.words}: ${word.toLowerCase()}${item.why ? `: ${item.why}` : ""} `);
    if (state === "refused" || state === "asks") made.append(...choices(item));
    return made;
  }

  function choices(item) {
    const noted = button("Noted", () => {
      drop(item.key);
      if (told === item.key) band().replaceChildren();
      tell();
    });
    if (item.state !== "asks") return [noted];
    return [button("Go on all the same", () => {
      const said = { ...item.said, despite: [...new Set([...(item.said.despite || []), ...item.despite])] };
      keep({ ...item, said, state: "kept", why: "", despite: [] });
      show("sending", item.words);
      send();
    }), noted];
  }

  // Sending: one after another in the order in which they were said, again until there is an answer.

  const BUSY = "The server asks this device to wait; it is sent again by itself.";

  async function ask(said, key, to = "/bench/said") {
    const answer = await fetch(to, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ ...said, key }),
      signal: AbortSignal.timeout(WAIT),
    });
    const kind = answer.headers.get("Content-Type") || "";
    if (answer.status === 429) throw new Error(BUSY);
    if (!kind.startsWith("application/json")) throw new Error(`the server answered ${answer.status}`);
    return answer.json();
  }

  async function send() {
    if (sending) return;
    try {
      for (let item = unsent()[0]; item; item = unsent()[0]) {
        sending = item.key;
        tell();
        answered(item, await ask(item.said, item.key, item.to));
      }
    } catch (trouble) {
      sayKept(trouble.message === BUSY ? BUSY : "The server is not heard; it is sent when it is.");
    } finally {
      sending = "";
      tell();
    }
  }

  // Of the last thing said, and not before it is true of all of them.
  async function sayKept(why) {
    await allWritten();
    const item = unsent().at(-1);
    if (!item || sending) return;
    show("kept", item.words, why);
    tell();
  }

  function answered(item, answer) {
    if (answer.state === "in the ledger") {
      drop(item.key);
      show("ledger", answer.words, answer.next && `Next: ${answer.next}`, ...undoing(answer));
      if (item.said.all && item.here === PAGE && answer.page) {
        leaving = true;
        location.assign(answer.page);
      } else {
        document.body.dispatchEvent(new CustomEvent("live"));
      }
    } else if (answer.state === "refused" || answer.state === "asks") {
      const stopped = { ...item, state: answer.state, why: answer.words, despite: answer.despite };
      keep(stopped);
      if (item.to) document.body.dispatchEvent(new CustomEvent("live"));
      show(answer.state, item.words, answer.words, ...choices(stopped));
      told = item.key;
    } else {
      throw new Error("no answer of ours");
    }
  }

  function undoing(answer) {
    if (!answer.undo) return [];
    return [button(`Undo: ${answer.words}`, () => say({ touch: answer.undo, job: answer.job }, `undo ${answer.words}`))];
  }

  function say(said, words, to) {
    counter += 1;
    keep({ key: newKey(), at: Date.now(), turn: counter, state: "kept", said, words, to, here: PAGE });
    show("sending", words);
    tell();
    send();
  }

  async function look(said) {
    show("sending", said.code);
    try {
      const answer = await ask(said, newKey());
      if (answer.state === "found") {
        show("found", answer.words);
        leaving = true;
        location.assign(answer.page);
      } else {
        show(answer.state in SHOWN ? answer.state : "refused", "", answer.words);
      }
    } catch (trouble) {
      const why = trouble.message === BUSY ? "The server asks this device to wait" : "The server is not heard";
      show("refused", "", `${why}, so ${said.code} cannot be looked up. Scan it again in a moment.`);
    }
  }

  function take(said) {
    const code = said.code.trim();
    if (!code) return;
    if (form) form.querySelector("details").open = false;
    const now = Date.now();
    const twice = code === last.code && (said.deed || "") === last.deed && now - last.at < TWICE;
    last = { code, deed: said.deed || "", at: now };
    if (twice) show("twice", code, "It came twice within two seconds.");
    else if (said.deed) say(said, `${code} ${said.deed}`);
    else look(said);
  }

  // Taking: a scanner types; what it types goes into the field wherever one stands, however slowly it comes.

  const NOT_TYPED_INTO = new Set(["button", "submit", "radio", "checkbox", "reset", "image", "range", "color", "file"]);

  function typesInto(element) {
    if (!element) return false;
    if (element.isContentEditable || element.tagName === "TEXTAREA" || element.tagName === "SELECT") return true;
    return element.tagName === "INPUT" && !NOT_TYPED_INTO.has(element.type);
  }

  function key(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    const within = typesInto(document.activeElement);
    if (field && document.activeElement === field && event.key === "Tab" && /^[0-9a-z]{8}\/./i.test(field.value)) {
      event.preventDefault();
      form.requestSubmit();
    } else if (within) {
      typed = "";
    } else if (event.key.length === 1 && (event.key !== " " || typed)) {
      if (field) {
        field.focus({ preventScroll: true });
        field.select();
      } else {
        typed += event.key;
        event.preventDefault();
      }
    } else if (event.key === "Enter" && typed) {
      event.preventDefault();
      const code = typed;
      typed = "";
      take({ code });
    } else if (event.key === "Escape") {
      typed = "";
    }
  }

  function fields(sent, by) {
    const said = {};
    for (const [name, value] of new FormData(sent, by)) {
      if (name === "despite") (said.despite = said.despite || []).push(value);
      else if (name !== "key" && name !== "back" && typeof value === "string") said[name] = value;
    }
    return said;
  }

  function submitted(event) {
    const sent = event.target;
    if (sent.matches("form[data-scan]")) {
      event.preventDefault();
      event.stopPropagation();
      const said = fields(sent, event.submitter);
      sent.elements.code.value = "";
      sent.elements.code.focus({ preventScroll: true });
      take(said);
    } else if (sent.matches("form[data-said]")) {
      event.preventDefault();
      event.stopPropagation();
      const words = event.submitter ? event.submitter.textContent.trim() : "";
      say(fields(sent, event.submitter), words);
    } else if (sent.matches("form[data-tick]")) {
      event.preventDefault();
      event.stopPropagation();
      const pressed = event.submitter || sent.querySelector("button");
      if (pressed.disabled) return;
      pressed.disabled = true;
      const said = fields(sent, event.submitter);
      say(said, said.all ? "All through" : `${said.lot} through`, sent.getAttribute("action"));
    } else {
      leaving = true;
    }
  }

  function chosen(event) {
    if (!event.target.matches("form[data-scan] [name=deed]")) return;
    const says = event.target.closest("details").querySelector("summary strong");
    says.textContent = event.target.parentElement.textContent.trim();
    form.querySelector("button").textContent = event.target.value ? "Say it" : "Look";
    try { localStorage.setItem(CHOSEN, event.target.value); } catch { /* chosen for this page only */ }
  }

  function chooseAgain() {
    let deed = null;
    try { deed = localStorage.getItem(CHOSEN); } catch { /* the page's own choice stays */ }
    if (!form || deed === null || new URLSearchParams(location.search).has("deed")) return;
    const choice = [...form.elements.deed].find((each) => each.value === deed);
    if (!choice) return;
    choice.checked = true;
    choice.dispatchEvent(new Event("change", { bubbles: true }));
  }

  document.addEventListener("keydown", key, true);
  document.addEventListener("submit", submitted, true);
  document.addEventListener("change", chosen);
  document.addEventListener("click", (event) => { if (event.target.closest && event.target.closest("a[href]")) leaving = true; }, true);
  document.addEventListener("pointerdown", () => { typed = ""; leaving = false; });
  window.addEventListener("storage", tell);
  window.addEventListener("online", send);
  window.addEventListener("beforeunload", (event) => { if (!leaving && (beside.size || unsent().length)) event.preventDefault(); });
  setInterval(() => { if (unsent().length) send(); }, AGAIN);
  const laid = document.getElementById("band"); // it lies over the page: room for it is made, and none of it hides the focus
  if (laid) new ResizeObserver(() => document.documentElement.style.setProperty("--band", `${laid.offsetHeight}px`)).observe(laid);
  chooseAgain();
  tell();
  send();
})();
