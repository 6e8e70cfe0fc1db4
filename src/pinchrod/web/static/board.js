// Timber: a fault tapped on a drawn board or stick; the rack's grid worked by keys, rows pasted into it.
"use strict";
(() => {
  const STEP = 5; // mm: nobody taps nearer than that
  const typedIn = (input) => input.dispatchEvent(new Event("input", { bubbles: true })); // so that it is drawn, kept, said again

  function tapping(picture) {
    const form = document.getElementById("fault");
    const svg = picture.querySelector("svg");
    if (!form || !svg) return;
    const data = picture.dataset;
    const wide = Number(data.wide), high = Number(data.high), per = Number(data.per), across = Number(data.across);
    const lanes = data.lanes.split(";").filter(Boolean).map((lane) => lane.split(" ").map(Number));
    const field = (name) => form.elements[name];
    const hint = form.querySelector("[data-tap-hint]");
    let first = null;

    const marks = document.createElementNS("http://www.w3.org/2000/svg", "g");
    marks.setAttribute("class", "tap-marks");
    svg.append(marks);
    picture.classList.add("taps");
    say("Tap on the drawing where the fault begins, then where it ends; or type it here.");

    function say(words) { hint.textContent = words; }

    function place(event) {
      const box = svg.getBoundingClientRect();
      const x = (event.clientX - box.left) * wide / box.width, y = (event.clientY - box.top) * high / box.height;
      let lane = lanes[0];
      for (const each of lanes) if (y >= each[1]) lane = each;
      const along = lane[2] + (x - lane[0]) * per;
      return {
        along: Math.min(Math.max(along, lane[2]), lane[3]),
        across: Math.min(Math.max((y - lane[1]) * per, 0), across),
      };
    }

    const round = (size, most) => Math.min(Math.round(size / STEP) * STEP, most);
    const whole = () => {
      const kind = form.querySelector("[name=kind]:checked");
      return !across || (kind && kind.dataset.whole === "yes");
    };

    function tap(event) {
      const spot = place(event);
      const long = lanes[lanes.length - 1][3];
      if (!first) {
        first = spot;
        fill([spot, spot], long);
        say("Now tap where it ends.");
      } else {
        fill([first, spot], long);
        first = null;
        say("Look at the figures, then add it. Tap again to begin anew.");
      }
    }

    function fill(spots, long) {
      const alongs = spots.map((spot) => spot.along).sort((a, b) => a - b);
      const begun = spots[0] === spots[1];
      field("from").value = round(alongs[0], long);
      field("to").value = begun ? "" : Math.max(round(alongs[1], long), Math.min(round(alongs[0], long) + STEP, long));
      if (across) {
        const sides = spots.map((spot) => spot.across).sort((a, b) => a - b);
        const near = round(sides[0], across);
        field("near").value = whole() ? "" : near;
        field("far").value = whole() || begun ? "" : Math.max(round(sides[1], across), Math.min(near + STEP, across));
      }
      for (const name of across ? ["from", "to", "near", "far"] : ["from", "to"]) typedIn(field(name));
    }

    function draw() {
      marks.replaceChildren();
      const low = Number(field("from").value), end = field("to").value;
      if (field("from").value === "" || Number.isNaN(low)) return;
      const up = end === "" || Number.isNaN(Number(end)) ? low : Number(end);
      const deep = !across || !field("near").value || !field("far").value;
      for (const [left, top, from, to] of lanes) {
        const a = Math.max(low, from), b = Math.min(up, to);
        if (a > b) continue;
        const mark = document.createElementNS("http://www.w3.org/2000/svg", "rect");
        const near = deep ? 0 : Number(field("near").value), far = deep ? across || 14 * per : Number(field("far").value);
        mark.setAttribute("x", left + (a - from) / per);
        mark.setAttribute("width", Math.max((b - a) / per, .8));
        mark.setAttribute("y", (across ? top : 1) + near / per);
        mark.setAttribute("height", Math.max((far - near) / per, .8));
        marks.append(mark);
      }
    }

    svg.addEventListener("click", tap);
    form.addEventListener("input", draw);
    form.addEventListener("change", (event) => {
      if (event.target.name === "kind" && whole()) { field("near").value = ""; field("far").value = ""; draw(); }
    });
    draw();
  }

  function grid(form) {
    const rows = () => [...form.querySelectorAll(".grid tbody tr:not(.row-slips)")];
    const cells = (row) => [...row.querySelectorAll("input")];
    const where = (input) => {
      const row = input.closest("tr");
      return [rows().indexOf(row), cells(row).indexOf(input)];
    };
    function go(row, column) {
      const all = rows();
      const to = all[Math.min(Math.max(row, 0), all.length - 1)];
      const input = to && cells(to)[column];
      if (input) { input.focus(); input.select(); }
    }
    function next(row, column) {
      const last = cells(rows()[row]).length - 1;
      if (column < last) return go(row, column + 1);
      if (row === rows().length - 1) more(row + 1);
      return go(row + 1, 0);
    }
    function more(number) {
      const all = rows(), last = all[all.length - 1], made = last.cloneNode(true);
      for (const input of cells(made)) {
        input.id = input.name = input.name.replace(/^b\d+/, `b${number}`);
        input.setAttribute("aria-label", input.getAttribute("aria-label").replace(/(of|in row).*$/, (words) => `${words.startsWith("of") ? "of" : "in"} row ${number + 1}${words.endsWith(", mm") ? ", mm" : ""}`));
        input.value = "";
        input.tabIndex = -1;
        unit(input);
        input.removeAttribute("aria-invalid");
        input.removeAttribute("aria-describedby");
      }
      last.after(made);
      form.elements.rows.value = rows().length;
    }
    const kept = new WeakMap();

    // One cell is the stop of Tab; from it one goes by the arrows. What is typed takes the place of what stands
    // in a cell, until it is edited: by F2, or by a finger or mouse within it.

    const inputs = [...form.querySelectorAll(".grid input")];
    const first = inputs.find((input) => input.hasAttribute("aria-invalid")) || inputs[0];
    if (!first) return; // all rows as one text
    let at = null, edited = false, pointed = false;
    const MARKED = /[A-Za-z"'\u2032\u2033\u2019\u201d]/; // a unit was typed: mm is not said behind it

    function stop(input) {
      if (at) at.tabIndex = -1;
      at = input;
      at.tabIndex = 0;
    }
    function unit(input) {
      const behind = input.parentElement.querySelector(".unit");
      if (behind) behind.hidden = MARKED.test(input.value);
    }

    for (const input of form.querySelectorAll(".grid input")) input.tabIndex = -1;
    stop(first);
    form.querySelector("[data-grid-keys]").textContent =
      "Arrows, Home and End go from cell to cell. Typing replaces what stands there, F2 changes it, Esc gives it back. Tab goes on below the rows.";

    form.addEventListener("focusin", (event) => {
      if (!event.target.matches(".grid input")) return;
      kept.set(event.target, event.target.value);
      stop(event.target);
      edited = pointed;
      if (!pointed) event.target.select();
    });
    form.addEventListener("pointerdown", () => { pointed = true; });
    form.addEventListener("click", (event) => {
      pointed = false;
      if (event.target.matches(".grid input")) edited = true;
    });
    form.addEventListener("input", (event) => { if (event.target.matches(".grid input")) unit(event.target); });
    form.addEventListener("keydown", (event) => {
      const input = event.target, key = event.key;
      pointed = false;
      if (!input.matches(".grid input") || event.altKey || event.metaKey) return;
      if (event.ctrlKey && key !== "Home" && key !== "End") return;
      const [row, column] = where(input);
      const last = cells(rows()[row]).length - 1;
      const moves = {
        Enter: () => (event.shiftKey ? go(row - 1, column) : next(row, column)),
        ArrowDown: () => go(row + 1, column),
        ArrowUp: () => go(row - 1, column),
        PageDown: () => go(row + 10, column),
        PageUp: () => go(row - 10, column),
        Escape: () => { input.value = kept.get(input) ?? input.value; edited = false; typedIn(input); input.select(); },
        F2: () => { edited = true; input.setSelectionRange(input.value.length, input.value.length); },
      };
      if (event.ctrlKey) Object.assign(moves, { Home: () => go(0, 0), End: () => go(rows().length - 1, last) });
      else if (!edited && !event.shiftKey) Object.assign(moves, { Home: () => go(row, 0), End: () => go(row, last) });
      const all = !edited && !event.shiftKey && input.selectionStart === 0 && input.selectionEnd === input.value.length;
      if (key === "ArrowRight" && (all || input.selectionStart === input.value.length)) moves.ArrowRight = () => go(row, Math.min(column + 1, last));
      if (key === "ArrowLeft" && (all || input.selectionEnd === 0)) moves.ArrowLeft = () => go(row, Math.max(column - 1, 0));
      if (moves[key]) { event.preventDefault(); moves[key](); }
    });
    form.addEventListener("paste", (event) => {
      const text = event.clipboardData.getData("text/plain").replace(/\r\n?/g, "\n").replace(/\n+$/, "");
      if (!event.target.matches(".grid input") || !/[\t\n]/.test(text)) return;
      event.preventDefault();
      const [row, column] = where(event.target);
      text.split("\n").forEach((line, down) => {
        while (rows().length <= row + down) more(rows().length);
        const to = cells(rows()[row + down]);
        line.split("\t").forEach((words, right) => { if (to[column + right]) { to[column + right].value = words.trim(); unit(to[column + right]); } });
      });
      typedIn(event.target);
    });
  }

  document.querySelectorAll("[data-tapped]").forEach(tapping);
  document.querySelectorAll("[data-grid]").forEach(grid);
})();
