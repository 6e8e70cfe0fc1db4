// What a page offers to press, how large it is and how near its neighbours: for tests only.
() => {
  const seen = (el) => {
    const style = getComputedStyle(el);
    if (style.visibility === "hidden" || style.display === "none" || !el.checkVisibility()) return false;
    const box = el.getBoundingClientRect();
    return box.width > 1 && box.height > 1 && box.right > 0 && box.bottom + scrollY > 0;
  };
  const union = (a, b) => ({
    left: Math.min(a.left, b.left), top: Math.min(a.top, b.top),
    right: Math.max(a.right, b.right), bottom: Math.max(a.bottom, b.bottom),
  });
  const name = (el) => `${el.tagName.toLowerCase()} “${(el.innerText || el.getAttribute("aria-label") || el.name || "").trim().slice(0, 40)}”`;
  const inText = (el) => el.tagName === "A" && getComputedStyle(el).display === "inline"
    && el.closest("p, li, dd, td, label, legend, h1, h2, h3, caption") !== null;
  const fixed = (el) => { for (let up = el; up; up = up.parentElement) { if (/(fixed|sticky)/.test(getComputedStyle(up).position)) return true; } return false; };
  const controls = [...document.querySelectorAll("a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [tabindex='0']")]
    .filter(seen)
    .filter((el) => !el.disabled)
    .map((el) => {
      let box = el.getBoundingClientRect();
      const label = el.closest("label") || (["checkbox", "radio", "file"].includes(el.type) && el.id && document.querySelector(`label[for="${CSS.escape(el.id)}"]`));
      if (label && seen(label)) box = union(box, label.getBoundingClientRect());
      return {
        boxed: el.closest("table") !== null || fixed(el), name: name(el), inText: inText(el), act: el.matches(".act"), costly: el.matches(".costly"), drawn: el.closest("svg") !== null || el.querySelector("svg, img, canvas") !== null,
        left: box.left, top: box.top, right: box.right, bottom: box.bottom,
        width: Math.round((box.right - box.left) * 10) / 10, height: Math.round((box.bottom - box.top) * 10) / 10,
      };
    });
  const letters = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const el = walker.currentNode.parentElement;
    if (!walker.currentNode.textContent.trim() || !el || el.closest("svg, script, .quiet, .skip, noscript") || !seen(el)) continue;
    letters.push({ words: walker.currentNode.textContent.trim().slice(0, 40), size: parseFloat(getComputedStyle(el).fontSize), main: el.closest("main") !== null, aside: el.closest(".aside, .hint, .place, caption, .foot, .note") !== null });
  }
  const boxed = (el) => { for (let up = el.parentElement; up; up = up.parentElement) { if (/(auto|scroll|hidden)/.test(getComputedStyle(up).overflowX)) return true; } return false; };
  const wide = [...document.querySelectorAll("body *")].filter((el) => seen(el) && el.getBoundingClientRect().right > innerWidth + 1 && !boxed(el)).map(name).slice(0, 5);
  return {
    device: document.documentElement.dataset.device || "", kind: document.body.className,
    controls, letters, across: document.documentElement.scrollWidth - document.documentElement.clientWidth, wide,
    lang: document.documentElement.lang, title: document.title, ran: window.ran, broken: window.broken,
  };
}
