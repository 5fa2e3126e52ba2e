"use strict";
// Drags a load along its batten. On grab the server sends what each figure is at every place the load may take; the
// page looks up and writes, the release is computed by the server. Nothing is calculated here but where the finger is.
(() => {
  const root = document.getElementById("set");
  const tables = new Map();
  let held = null, waiting = false;
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

  function table(piece) {
    const key = `${layout()}/${piece}`;
    if (!tables.has(key)) {
      const asked = fetch(address(`response?piece=${piece}&layout=${layout()}`)).then((r) => {
        if (!r.ok) throw new Error("refused");
        return r.json();
      });
      asked.catch(() => tables.delete(key));
      tables.set(key, asked);
    }
    return tables.get(key);
  }
  const at = (t, x, isFine = true) => {
    let best = -1;
    t.stations.forEach((one, i) => {
      if ((isFine || one.round) && (best < 0 || Math.abs(one.x - x) < Math.abs(t.stations[best].x - x))) best = i;
    });
    return best < 0 ? at(t, x) : best;
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
  async function release(piece, station) {
    waiting = true;
    try {
      await send("move", { piece, centre: station.words });
    } finally { waiting = false; }
  }
  async function send(what, more) {
    const body = JSON.stringify({ base: Number(root.dataset.revision), operation: operation(), ...more });
    const focus = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.load : undefined;
    let answer = null;
    for (let turn = 0; turn < 3 && !answer; turn += 1) {
      try {
        answer = await fetch(address(what), { method: "POST", headers: { "Content-Type": "application/json" }, body });
      } catch { await new Promise((done) => setTimeout(done, 400 * (turn + 1))); }
    }
    if (!answer) { said("No answer: this change is not kept. Try again when the link is back."); return; }
    const now = await answer.json();
    if (!answer.ok) { await again(); said(`${now.says} ${now.mend || ""}`); return; }
    forget(what === "move" ? more.piece : undefined);
    put(now, focus);
    said(now.says, true);
  }
  // What a load does at each place does not rest on where it hangs now, so its own table outlives its own move.
  function forget(moved) {
    for (const key of tables.keys()) if (moved === undefined || key.split("/")[1] !== String(moved)) tables.delete(key);
  }
  async function again() {
    forget();
    const answer = await fetch(address("now"));
    if (answer.ok) put(await answer.json());
  }
  function put(now, focus) {
    root.innerHTML = now.html;  // written by the server, every word in it escaped there
    root.dataset.revision = now.revision;
    root.classList.remove("provisional");
    document.querySelector("[data-act=undo]").disabled = !now.may_undo;
    setTimeout(ahead, 150);
    if (focus !== undefined) root.querySelector(`.${layout()} [data-load="${focus}"]`)?.focus({ preventScroll: true });
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
                   metre: Number(svg.dataset.perMetre) * unit, table: null, index: null, isTouch: event.pointerType === "touch", isFine: event.shiftKey || event.altKey };
    held = mine;
    if (mine.isTouch) said("Lifted. Slide it along; let go where it is to hang.");
    try {
      mine.table = await table(mine.piece);
    } catch { said("This load cannot be moved now: the server sent no figures for it."); if (held === mine) held = null; return; }
    if (held === mine) follow();
    else if (mine.now !== mine.x) { held = mine; follow(); held = null; if (mine.index !== null) release(mine.piece, mine.table.stations[mine.index]); }
  }
  function follow() {
    if (!held.table || held.now === held.x) return;
    const index = at(held.table, held.start + (held.now - held.x) / held.metre, held.isFine);
    if (index === held.index) return;
    held.index = index;
    show(held.table, index);
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
    if (mine && mine.table && mine.index !== null) release(mine.piece, mine.table.stations[mine.index]);
  });
  document.addEventListener("pointercancel", () => { rested(); laid(); if (held) { held = null; again(); } });

  // By keyboard: arrows move by one station and Page keys by a foot or so; what is shown is kept half a second later, or on leaving.
  let keyed = null;
  const keep = () => {
    if (!keyed) return;
    const mine = keyed;
    keyed = null;
    clearTimeout(mine.timer);
    if (!waiting) release(mine.piece, mine.table.stations[mine.index]);
  };
  document.addEventListener("keydown", async (event) => {
    const handle = event.target.closest ? event.target.closest("[data-load]") : null;
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 12, PageDown: -12, Home: -1e6, End: 1e6 }[event.key];
    if (!handle || by === undefined || waiting) return;
    event.preventDefault();
    const piece = Number(handle.dataset.load);
    let t = null;
    try { t = await table(piece); } catch { said("This load cannot be moved now: the server sent no figures for it."); return; }
    const from = keyed && keyed.piece === piece ? keyed.index : at(t, Number(handle.getAttribute("aria-valuenow")));
    if (keyed) clearTimeout(keyed.timer);
    const index = Math.max(0, Math.min(t.stations.length - 1, from + by));
    keyed = { piece, table: t, index, timer: setTimeout(keep, 500) };
    show(t, index);
    handle.setAttribute("aria-valuetext", t.stations[index].words);
  });
  document.addEventListener("focusout", (event) => { if (event.target.dataset && event.target.dataset.load !== undefined && document.hasFocus()) keep(); });

  document.addEventListener("click", async (event) => {
    const figure = event.target.closest("[data-story]");
    if (event.target.closest("[data-act=undo]") && !waiting) { waiting = true; try { await send("undo", {}); } finally { waiting = false; } return; }
    if (event.target.closest("[data-act=close]")) { document.getElementById("story").replaceChildren(); return; }
    if (!figure || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const answer = await fetch(`${figure.getAttribute("href")}?part=1`);
    if (!answer.ok) { location.href = figure.getAttribute("href"); return; }
    const story = document.getElementById("story");
    story.innerHTML = await answer.text();  // written by the server, every word in it escaped there
    story.scrollIntoView({ block: "nearest" });
  });
})();
