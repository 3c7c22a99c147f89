"use strict";
// Makes a page easier to read: picks rows of the board, opens all reasons, and says the values of figures to pointer, finger and keys.
// Without it the page is plain and whole.
(() => {
  const all = (selector, of = document) => [...of.querySelectorAll(selector)];

  // ---- the board: by word and by stage

  function pick(form) {
    const table = document.getElementById(form.dataset.of);
    const word = form.elements.word, stage = form.elements.stage, said = form.querySelector("output");
    const rows = all("tr[data-word]", table);

    function show() {
      let shown = 0;
      for (const row of rows) {
        row.hidden = Boolean(word.value && row.dataset.word !== word.value || stage.value && row.dataset.stage !== stage.value);
        if (!row.hidden) shown++;
      }
      for (const group of table.tBodies) group.hidden = !all("tr[data-word]", group).some(row => !row.hidden);
      const text = shown === rows.length ? "showing all " + rows.length + " parts" : "showing " + shown + " of " + rows.length + " parts";
      if (said.textContent !== text) said.textContent = text;
    }

    form.addEventListener("change", show);
    form.addEventListener("reset", () => setTimeout(show));
    form.addEventListener("submit", event => event.preventDefault());
    form.hidden = false;
    show();
    openAll(form.querySelector("button[name=reasons]"), table);
  }

  // ---- all reasons at once

  function openAll(button, table) {
    const reasons = all("details", table);
    const closed = () => reasons.some(d => !d.open);
    const name = () => { button.textContent = closed() ? "open all reasons" : "close all reasons"; };
    button.hidden = !reasons.length;
    button.addEventListener("click", () => {
      const open = closed();
      for (const d of reasons) d.open = open;
      name();
    });
    for (const d of reasons) d.addEventListener("toggle", name);
    name();
  }

  // ---- values of figures

  const box = document.createElement("div");
  box.className = "value";
  box.setAttribute("role", "status"); // read aloud when there is time
  const ring = document.createElement("div");
  ring.className = "ring";
  ring.setAttribute("aria-hidden", "true");

  // A drawing's points stand beside it, a line each: across, down, what it says.
  function pointsOf(place) {
    return place.dataset.points.split("\n").map(line => {
      const [x, y, ...words] = line.split(" ");
      return { x: Number(x), y: Number(y), text: words.join(" ") };
    });
  }

  // Where a point of the drawing lies in the window, and how many pixels a unit of the drawing takes.
  function onScreen(place, point) {
    const svg = place.querySelector("svg"), frame = svg.getBoundingClientRect();
    const scale = frame.width / svg.viewBox.baseVal.width;
    return { x: frame.left + point.x * scale, y: frame.top + point.y * scale };
  }

  function nearest(place, points, x, y, reach) {
    let best = -1, least = reach * reach;
    points.forEach((point, i) => {
      const at = onScreen(place, point), d = (at.x - x) ** 2 + (at.y - y) ** 2;
      if (d < least) { least = d; best = i; }
    });
    return best;
  }

  let said = null; // what the box speaks of

  // The box stands above its point, or below, and never leaves the window.
  function say(place, point) {
    said = { place, point };
    const at = onScreen(place, point), margin = 8;
    if (box.textContent !== point.text) box.textContent = point.text;
    box.classList.add("shown");
    ring.classList.add("shown");
    ring.style.transform = "translate(" + at.x + "px," + at.y + "px)";
    const w = box.offsetWidth, h = box.offsetHeight;
    const left = Math.max(margin, Math.min(at.x - w / 2, document.documentElement.clientWidth - w - margin));
    const above = at.y - h - 14, top = above < margin ? at.y + 14 : above;
    box.style.transform = "translate(" + left + "px," + Math.max(margin, Math.min(top, innerHeight - h - margin)) + "px)";
  }

  function hush() {
    said = null;
    box.classList.remove("shown");
    ring.classList.remove("shown");
    box.textContent = "";
  }

  function steps(key, at, last) {
    switch (key) {
      case "ArrowRight": case "ArrowDown": return Math.min(at + 1, last);
      case "ArrowLeft": case "ArrowUp": return Math.max(at - 1, 0);
      case "Home": return 0;
      case "End": return last;
    }
    return -1;
  }

  function listen(place) {
    const points = pointsOf(place);
    let at = -1;
    const go = i => { if (i >= 0) { at = i; say(place, points[i]); } else hush(); };
    place.tabIndex = 0;
    place.setAttribute("role", "group");
    place.setAttribute("aria-label", "Values of the figure: " + points.length + ", step through them with the arrow keys");
    place.addEventListener("pointermove", e => { if (e.pointerType !== "touch") go(nearest(place, points, e.clientX, e.clientY, 24)); });
    place.addEventListener("pointerdown", e => go(nearest(place, points, e.clientX, e.clientY, 40)));
    place.addEventListener("pointerleave", e => { if (e.pointerType !== "touch" && document.activeElement !== place) hush(); });
    place.addEventListener("blur", hush);
    place.addEventListener("keydown", e => {
      if (e.key === "Escape") return hush();
      const next = e.altKey || e.ctrlKey || e.metaKey ? -1 : steps(e.key, at, points.length - 1);
      if (next < 0) return;
      e.preventDefault();
      at = next;
      const y = onScreen(place, points[at]).y;
      if (y < 0 || y > innerHeight) window.scrollBy({ top: y - innerHeight / 2, behavior: "instant" });
      say(place, points[at]);
    });
  }

  for (const form of all("form.pick")) pick(form);
  const places = all("[data-points]");
  if (places.length) document.body.append(ring, box);
  for (const place of places) listen(place);
  window.addEventListener("scroll", () => { if (said) say(said.place, said.point); }, { passive: true });
})();
