"use strict";
// Drags a load along its batten. Before a hand comes near, the server sends what each figure is at every half foot the
// load may take, and at each inch near it where one asks for those; the page looks up and writes, the release is computed by
// the server. Nothing is calculated here but where the finger is.
(() => {
  const root = document.getElementById("set");
  const tables = new Map();
  let held = null, waiting = false, kept = root.innerHTML;
  let keyed = null, presses = [], pressing = false; // what was moved by key and is not kept yet; keys that wait their turn
  const BY = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 1, PageDown: -1, Home: -1e6, End: 1e6 };
  const HAIR = 0.0005; // [m]; a place is written on the page to the tenth of a millimetre
  const WAIT = "Waiting for figures.", NONE = "This load cannot be moved now: the server sent no figures for it.";
  // What is done passes; what went wrong stays until something else is said.
  let passing = null;
  const said = (text, passes) => {
    const place = document.getElementById("said");
    clearTimeout(passing);
    place.textContent = text;
    if (passes) passing = setTimeout(() => { place.textContent = ""; }, 6000);
  };
  const layout = () => (getComputedStyle(root.querySelector(".narrow")).display === "none" ? "wide" : "narrow");
  const operation = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
  const address = (rest) => `${document.body.dataset.root || ""}/api/set/${encodeURIComponent(root.dataset.label)}/${rest}`;

  const keyOf = (piece, isFine) => `${layout()}/${piece}/${isFine ? "fine" : "round"}`;
  function table(piece, isFine) {
    const key = keyOf(piece, isFine);
    if (!tables.has(key)) {
      const asked = fetch(address(`response?piece=${piece}&layout=${layout()}${isFine ? "&fine=1" : ""}`)).then((r) => {
        if (!r.ok) throw new Error("refused");
        return r.json();
      }).then((t) => ({ ...t, key }));
      asked.catch(() => tables.delete(key));
      tables.set(key, asked);
    }
    return tables.get(key);
  }
  const at = (t, x) => {
    let best = 0;
    t.stations.forEach((one, i) => { if (Math.abs(one.x - x) < Math.abs(t.stations[best].x - x)) best = i; });
    return best;
  };
  function show(t, index) {
    const station = t.stations[index], box = root.querySelector(`.${layout()}`);
    root.classList.add("provisional");
    for (const [key, given] of Object.entries(station.shows)) {
      for (const one of root.querySelectorAll(`[data-key="${CSS.escape(key)}"]`)) {
        if (one.ownerSVGElement && !box.contains(one)) continue;
        for (const [name, value] of Object.entries(given)) {
          if (name === "text") one.textContent = value;
          else one.setAttribute(name, value);
        }
      }
    }
    said(station.says);
  }
  // A load that ends where it hung is not moved: nothing is kept, and there is nothing to take back.
  async function release(piece, t, index) {
    if (Math.abs(t.stations[index].x - hangsAt(piece)) < HAIR) { stand(); said("As it was: nothing was moved.", true); return; }
    await busy(() => send("move", { piece, centre: t.stations[index].words }, t.key));
  }
  async function busy(work) {
    waiting = true;
    try { await work(); } finally { waiting = false; }
    if (keyed) keep(); // moved by key before that began, and its half second passed meanwhile
    press(); // what was pressed meanwhile goes on from where the load now is
  }
  const handleOf = (piece) => root.querySelector(`.${layout()} [data-load="${piece}"]`);
  const hangsAt = (piece) => Number(handleOf(piece).getAttribute("aria-valuenow"));
  async function send(what, more, from) {
    const body = JSON.stringify({ base: Number(root.dataset.revision), operation: operation(), ...more });
    let answer = null;
    for (let turn = 0; turn < 3 && !answer; turn += 1) {
      try {
        answer = await fetch(address(what), { method: "POST", headers: { "Content-Type": "application/json" }, body });
      } catch { await new Promise((done) => setTimeout(done, 400 * (turn + 1))); }
    }
    const now = answer ? await answer.json().catch(() => null) : null;
    if (!now) { presses = []; stand(); said("No answer: what is drawn is as it was last known to be kept. Try again when the link is back."); return; }
    if (!answer.ok) { presses = []; await again(); said(`${now.says} ${now.mend || ""}`); return; }
    forget(what === "move" ? from : undefined);
    put(now);
    const focus = focused();
    if (from && from.endsWith("fine") && focus !== undefined) table(focus, true).catch(() => {}); // the next key finds it here
    said(now.says, true);
  }
  // What a load does at each place does not rest on where it hangs now, so the table it was moved by outlives the move.
  function forget(moved) {
    for (const key of tables.keys()) if (key !== moved || key.endsWith("fine")) tables.delete(key);
  }
  // The picture that was kept, as it was before anything was dragged.
  function stand() {
    drawn(kept);
  }
  // Drawn anew; whoever stood on a load with the keyboard stands on it still.
  function drawn(markup) {
    const focus = focused();
    root.innerHTML = markup;  // written by the server, every word in it escaped there
    root.classList.remove("provisional");
    if (focus !== undefined) handleOf(focus)?.focus({ preventScroll: true });
  }
  const focused = () => (document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.load : undefined);
  async function again() {
    forget();
    const answer = await fetch(address("now")).catch(() => null), now = answer && answer.ok ? await answer.json().catch(() => null) : null;
    if (now) put(now);
    else stand();
  }
  function put(now) {
    kept = now.html;
    drawn(kept);
    root.dataset.revision = now.revision;
    const back = document.querySelector("[data-act=undo]");
    back.textContent = now.back;
    back.disabled = now.back.startsWith("nothing");
    setTimeout(ahead, 150);
  }

  // Asked for before a hand comes near, so that a drag never waits; a set with many pieces asks as the hand comes.
  const ahead = () => { for (const one of [...root.querySelectorAll(`.${layout()} [data-load]`)].slice(0, 3)) table(one.dataset.load).catch(() => {}); };
  setTimeout(ahead, 150);
  document.addEventListener("pointerover", (event) => {
    const handle = event.target.closest("[data-load]");
    if (handle) table(handle.dataset.load).catch(() => {});
  });
  // A finger that passes scrolls the page. One that rests lifts the load, and from then on the page stands still.
  const REST = 350, PASSES = 10;
  let resting = null;
  document.addEventListener("touchmove", (event) => { if (held && held.isTouch) event.preventDefault(); }, { passive: false });
  document.addEventListener("contextmenu", (event) => { if (event.target.closest("[data-load]")) event.preventDefault(); });
  const rested = () => { if (resting) { clearTimeout(resting.timer); resting = null; } };
  document.addEventListener("pointerdown", (event) => {
    const handle = event.target.closest("[data-load]");
    rested();
    if (!handle || event.button !== 0 || waiting || held) return;
    if (event.pointerType !== "touch") { grab(handle, event); return; }
    resting = { handle, x: event.clientX, y: event.clientY, timer: setTimeout(() => { resting = null; grab(handle, event); }, REST) };
  });
  async function grab(handle, event) {
    if (event.pointerType !== "touch") handle.setPointerCapture(event.pointerId);
    handle.classList.add("lifted");
    navigator.vibrate?.(20);
    document.body.classList.toggle("said-above", event.clientY > innerHeight / 2);
    const svg = handle.closest("svg"), unit = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    const mine = { piece: Number(handle.dataset.load), x: event.clientX, now: event.clientX, start: Number(handle.getAttribute("aria-valuenow")),
                   metre: Number(svg.dataset.perMetre) * unit, table: null, fine: null, index: null, isTouch: event.pointerType === "touch", isFine: event.shiftKey || event.altKey };
    held = mine;
    let isHere = false;
    setTimeout(() => { if (!isHere && held === mine) said(WAIT); }, 0);
    try {
      mine.table = await table(mine.piece);
    } catch { isHere = true; if (held === mine) { held = null; laid(); said(NONE); } return; }
    isHere = true;
    if (held !== mine) return; // let go before the figures came: nothing is moved
    said(mine.isTouch ? "Lifted. Slide it along; let go where it is to hang." : "");
    follow();
  }
  function follow() {
    if (!held.table || held.now === held.x) return;
    if (held.isFine && !held.fine) finer(held);
    const t = (held.isFine && held.fine) || held.table;
    const index = at(t, held.start + (held.now - held.x) / held.metre);
    if (held.shown === t && index === held.index) return;
    held.shown = t;
    held.index = index;
    show(t, index);
  }
  // Every inch is asked for where somebody wants it; until it is here the load goes by half feet.
  function finer(mine) {
    if (mine.asked) return;
    mine.asked = true;
    table(mine.piece, true).then((t) => { mine.fine = t; if (held === mine) follow(); }).catch(() => {});
  }
  document.addEventListener("pointermove", (event) => {
    if (resting && Math.hypot(event.clientX - resting.x, event.clientY - resting.y) > PASSES) rested();
    if (!held) return;
    held.now = event.clientX;
    held.isFine = event.shiftKey || event.altKey;
    follow();
  });
  const laid = () => { for (const one of root.querySelectorAll(".lifted")) one.classList.remove("lifted"); };
  document.addEventListener("pointerup", () => {
    const mine = held;
    held = null;
    rested();
    laid();
    if (!mine) return;
    if (mine.index !== null) release(mine.piece, mine.shown, mine.index);
    else said(mine.table ? "" : "Let go before the figures were here: nothing was moved.", true);
  });
  const drop = () => { held = null; rested(); laid(); stand(); said("Let go: nothing was moved.", true); };
  document.addEventListener("pointercancel", () => { rested(); laid(); if (held) drop(); });

  // By keyboard: arrows move by an inch (farther off by half a foot) and Page keys by a foot; what is shown is kept half a second later, or on leaving.
  // Every press counts: one that comes while figures are awaited or a move is being kept waits its turn.
  const keep = () => {
    if (!keyed || waiting) return;
    const mine = keyed;
    keyed = null;
    clearTimeout(mine.timer);
    release(mine.piece, mine.table, mine.index);
  };
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { calledOff(); return; }
    const handle = event.target.closest ? event.target.closest("[data-load]") : null;
    if (!handle || BY[event.key] === undefined || held) return;
    event.preventDefault();
    presses.push({ piece: Number(handle.dataset.load), key: event.key });
    press();
  });
  function calledOff() {
    presses = []; // a key that waits for its turn moves nothing either
    if (held) drop();
    else if (keyed) {
      clearTimeout(keyed.timer);
      keyed = null;
      stand();
      said("As it was: nothing was moved.", true);
    }
  }
  async function press() {
    if (pressing || waiting) return;
    pressing = true;
    try {
      while (presses.length && !waiting) await step(presses[0]);
    } finally { pressing = false; }
  }
  async function step(mine) {
    const { piece, key } = mine;
    if (keyed && keyed.piece !== piece) { keep(); return; } // the one left is kept first
    let t = null, isHere = false;
    setTimeout(() => { if (!isHere) said(WAIT); }, 0);
    try { t = await table(piece, true); } catch { presses = []; said(NONE); return; } finally { isHere = true; }
    if (presses[0] !== mine) { said(""); return; } // called off meanwhile
    if (waiting) return;
    presses.shift();
    const handle = handleOf(piece);
    if (!handle) return;
    const from = keyed ? keyed.index : at(t, hangsAt(piece));
    if (keyed) clearTimeout(keyed.timer);
    const foot = { PageUp: 0.3048, PageDown: -0.3048 }[key];
    const index = foot ? at(t, t.stations[from].x + foot) : Math.max(0, Math.min(t.stations.length - 1, from + BY[key]));
    keyed = { piece, table: t, index, timer: setTimeout(keep, 500) };
    show(t, index);
    handle.setAttribute("aria-valuetext", t.stations[index].words);
    if (document.activeElement !== handle && !presses.length) keep(); // left meanwhile
  }
  document.addEventListener("focusout", (event) => { if (event.target.dataset && event.target.dataset.load !== undefined && document.hasFocus()) keep(); });

  let asker = null;
  document.addEventListener("click", async (event) => {
    const figure = event.target.closest("[data-story]");
    if (event.target.closest("[data-act=undo]") && !waiting) { await busy(() => send("undo", {})); return; }
    if (event.target.closest("[data-act=close]")) { closed(); return; }
    if (!figure || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const href = figure.getAttribute("href"), answer = await fetch(`${href}?part=1`).catch(() => null);
    if (!answer) { said("No answer: how this figure came about is told when the link is back."); return; }
    if (!answer.ok) { location.href = href; return; }
    const words = await answer.text().catch(() => null), story = document.getElementById("story");
    if (words === null) { said("No answer: how this figure came about is told when the link is back."); return; }
    asker = href;
    story.innerHTML = words;  // written by the server, every word in it escaped there
    story.scrollIntoView({ block: "nearest" });
    story.querySelector("[data-act=close]")?.focus({ preventScroll: true });
  });
  // Back to the figure that was asked about.
  function closed() {
    document.getElementById("story").replaceChildren();
    const asked = [...root.querySelectorAll("[data-story]")].find((one) => one.getAttribute("href") === asker && one.getClientRects().length);
    asked?.focus({ preventScroll: true });
    asked?.scrollIntoView({ block: "center" });
  }
})();
