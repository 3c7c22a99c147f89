"use strict";
// Renews a page that is served. The server says by events what it is doing, whether this page is still the newest, and what is
// wrong in the folder; the words are the server's. Whenever it has not been heard of, the page says so: it never grows old in silence.
(() => {
  const region = document.getElementById("live");
  const alertBox = document.getElementById("live-alert");
  if (!region || !("page" in region.dataset) || !alertBox || !window.EventSource) return; // a file, or nobody to ask

  const status = document.getElementById("live-status");
  const progress = document.getElementById("live-progress");
  const mine = region.dataset.page, asOf = region.dataset.asOf;
  const name = decodeURIComponent(location.pathname.replace(/^\//, "")) || "index.html";
  const memory = "wingproof live " + name; // in the storage of this tab
  const title = document.title;
  const patience = 15000; // ms without a word after which the connection counts as lost; the server speaks every five seconds
  const again = 30000; // ms after which a page that did not arrive is asked for once more

  let source = null, heard = 0, lost = false, leaving = false, timer = 0, later = 0;

  // ---- what the reader sees

  const put = (where, text) => { if (where.textContent !== text) where.textContent = text; };
  const line = (tag, text, of) => { const e = document.createElement(tag); e.textContent = text; of.append(e); return e; };
  const ofThis = () => asOf ? " This page is as of " + asOf + "." : "";

  let told = JSON.stringify([...alertBox.children].map(e => e.textContent));
  function warn(notes) {
    const fresh = JSON.stringify(notes);
    if (fresh === told) return; // read aloud once
    told = fresh;
    alertBox.replaceChildren();
    for (const note of notes) {
      line("p", note.head, alertBox).className = "head";
      if (note.lines && note.lines.length) {
        const list = line("ul", "", alertBox);
        for (const text of note.lines) line("code", text, line("li", "", list));
      }
      if (note.tail) line("p", note.tail, alertBox);
    }
  }

  function work(s) {
    progress.hidden = !s.progress;
    if (!s.progress) return;
    const bar = progress.querySelector("progress");
    if (s.total > 0) { bar.max = s.total; bar.value = s.done; } else bar.removeAttribute("value");
    put(progress.querySelector("span"), s.progress);
  }

  function lose() {
    if (leaving || lost) return;
    lost = true;
    const at = new Date().toTimeString().slice(0, 8);
    put(status, "Connection lost." + ofThis());
    work({});
    warn([{ head: "Connection lost at " + at + ": this page may be old.", tail: ofThis().trim() + " It keeps asking; if this stays, see whether wingproof serve still runs." }]);
    document.title = "May be old: " + title;
  }

  function show(s) {
    let text = s.status;
    const notes = s.notes || [];
    if (!s.as_of) text += "." + ofThis();
    if (s.as_of && !s.page) {
      text = "Live, but this page is no longer part of the report." + ofThis();
      notes.unshift({ head: "This page is no longer part of the report.", tail: "The newest board has the rest: open it at " + location.origin + "/" });
    }
    put(status, text);
    work(s);
    warn(notes);
    document.title = s.kind === "mistake" ? "Old: " + title : title;
  }

  // ---- listening

  function hear(event) {
    heard = Date.now();
    lost = false;
    const s = JSON.parse(event.data);
    show(s);
    if (s.page && s.page !== mine) renew(s.page);
  }

  function listen() {
    hush();
    heard = Date.now();
    source = new EventSource("/events?page=" + encodeURIComponent(name));
    for (const kind of ["working", "page", "mistake"]) source.addEventListener(kind, hear);
    source.addEventListener("beat", () => { heard = Date.now(); });
    source.onerror = () => {
      lose();
      if (source && source.readyState === EventSource.CLOSED) { hush(); timer = setTimeout(listen, 3000); }
    };
  }

  function hush() {
    clearTimeout(timer);
    if (source) source.close();
    source = null;
  }

  // A browser lends a server few connections: a page that nobody sees gives its own back, and asks when it is looked at again.
  function sleepOrWake() {
    if (document.hidden) {
      hush();
      put(status, "Asking whether this page is still the newest …" + ofThis());
    } else if (!source) listen();
  }

  setInterval(() => {
    if (!source || Date.now() - heard <= patience) return;
    lose();
    listen();
  }, 5000);
  document.addEventListener("visibilitychange", sleepOrWake);
  window.addEventListener("pagehide", () => { leaving = true; hush(); });
  window.addEventListener("pageshow", event => { leaving = false; if (event.persisted) sleepOrWake(); });

  // ---- renewing, with the reader's place kept

  const recall = () => { try { return JSON.parse(sessionStorage.getItem(memory)) || {}; } catch { return {}; } };
  const remember = what => { try { sessionStorage.setItem(memory, JSON.stringify(what)); return true; } catch { return false; } };

  let asking = false;
  async function renew(version) {
    const last = recall();
    const tried = last.tried === version && Date.now() - last.at < again;
    if (tried || asking) { // never round and round: what was fetched is still not what the server speaks of
      if (asking) return;
      put(status, "A newer page is there and did not arrive: reload this one." + ofThis());
      clearTimeout(later);
      later = setTimeout(() => { if (source && !lost) renew(version); }, again);
      return;
    }
    asking = true;
    try {
      const answer = await fetch(location.pathname, { method: "HEAD", cache: "no-store" }); // nothing is given up for a server that went
      if (!answer.ok) return;
    } catch { return; } finally { asking = false; }
    if (!remember({ tried: version, at: Date.now(), place: place() })) {
      put(status, "A newer page is there: reload this one." + ofThis());
      return;
    }
    history.scrollRestoration = "manual";
    location.reload();
  }

  // Elements are found again by what they belong to, not by their number: rows come and go.
  function keyed(selector) {
    const seen = new Map(), out = new Map();
    for (const e of document.querySelectorAll(selector)) {
      const home = e.id ? e : e.closest("[id]"), row = e.closest("tr"), head = row && row.querySelector("th");
      const own = e.matches("details") ? e.querySelector("summary") : e.matches("a,button,summary,label") ? e : null;
      const key = [home ? home.id : "", e.tagName, head ? head.textContent : "", own ? own.textContent : e.getAttribute("name") || ""].join("|");
      const n = (seen.get(key) || 0) + 1;
      seen.set(key, n);
      out.set(key + "|" + n, e);
    }
    return out;
  }
  const pressable = "button[aria-pressed],button[aria-expanded]";
  const focusable = "a,button,input,select,textarea,summary,[tabindex]";
  const landmarks = "tr,figure,h1,h2,h3,section,li,dt,p";
  const pressed = e => e.getAttribute("aria-pressed") || e.getAttribute("aria-expanded");
  const fieldValue = e => e.type === "checkbox" || e.type === "radio" ? e.checked : e.value;

  function place() {
    const out = { y: scrollY, x: scrollX, open: [], fields: [], pressed: [], anchors: [] };
    for (const [key, e] of keyed("details")) out.open.push([key, e.open]);
    for (const [key, e] of keyed("input,select,textarea")) out.fields.push([key, fieldValue(e)]);
    for (const [key, e] of keyed(pressable)) out.pressed.push([key, pressed(e)]);
    for (const [key, e] of keyed(focusable)) {
      if (e !== document.activeElement) continue;
      out.focus = key;
      try { out.selection = [e.selectionStart, e.selectionEnd]; } catch { /* a field without text */ }
    }
    const around = [];
    for (const [key, e] of keyed(landmarks)) { // what stands at the top of the window, and where
      if (e.closest("details:not([open])")) continue; // has a box, though nobody sees it
      const box = e.getBoundingClientRect();
      if (box.height <= 0 || box.bottom <= 0 || box.top >= innerHeight) continue;
      if (box.top < 0) around.unshift([key, box.top]); else if (out.anchors.length < 12) out.anchors.push([key, box.top]);
    }
    out.anchors.push(...around.slice(0, 4)); // else what reaches beyond the window, the innermost first
    return out;
  }

  function scrollBack(p) {
    let y = p.y;
    const now = keyed(landmarks);
    if (p.y > 0) for (const [key, top] of p.anchors) {
      const e = now.get(key), box = e && e.getBoundingClientRect();
      if (!box || !box.height) continue;
      y = scrollY + box.top - top;
      break;
    }
    scrollTo({ left: p.x, top: y, behavior: "instant" });
  }

  function restore(p) {
    const fields = keyed("input,select,textarea"), buttons = keyed(pressable);
    for (const [key, value] of p.fields) {
      const e = fields.get(key);
      if (!e || fieldValue(e) === value) continue;
      if (typeof value === "boolean") e.checked = value; else e.value = value;
      for (const kind of ["input", "change"]) e.dispatchEvent(new Event(kind, { bubbles: true }));
    }
    for (const [key, value] of p.pressed) {
      const e = buttons.get(key);
      if (e && pressed(e) !== value) e.click();
    }
    const details = keyed("details");
    for (const [key, open] of p.open) if (details.has(key)) details.get(key).open = open;
    const e = p.focus && keyed(focusable).get(p.focus);
    if (e) {
      e.focus({ preventScroll: true });
      if (p.selection && p.selection[0] !== null) try { e.setSelectionRange(...p.selection); } catch { /* a field without text */ }
    }
    scrollBack(p);
  }

  function settle() {
    const last = recall();
    if (!last.place) return;
    const p = last.place;
    remember({ tried: last.tried, at: last.at });
    if (Date.now() - last.at > again) return;
    restore(p);
    window.addEventListener("load", () => { scrollBack(p); history.scrollRestoration = "auto"; }, { once: true });
  }

  document.addEventListener("DOMContentLoaded", () => { settle(); sleepOrWake(); }, { once: true });
})();
