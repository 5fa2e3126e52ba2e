"use strict";
// Pulls a batten and lets its arbor answer, to try it: nothing is sent and nothing kept. No physics here: it looks up
// what the server sent for whole stations.
(() => {
  let table = null, failed = false;
  const loading = fetch(`${document.body.dataset.root || ""}/api/house/travel`).then((r) => (r.ok ? r.json() : null)).then((t) => { table = t; failed = !t; }).catch(() => { failed = true; });
  const said = document.getElementById("said");
  const TRIED = "Tried only, nothing is kept";
  const part = (lane, name) => lane.querySelector(`[data-part="${name}"]`);

  function show(handle, index) {
    const lane = handle.closest(".lane"), svg = handle.closest("svg"), set = table.sets[handle.dataset.set];
    index = Math.max(0, Math.min(set.heights.length - 1, index));
    lane.dataset.station = index;
    const scale = Number(svg.dataset.scale);
    const up = (set.heights[index] - set.drawn) * scale, down = (set.seats[index] - set.drawn_seat) * scale;
    for (const name of ["batten", "hold"]) part(lane, name).setAttribute("transform", `translate(0 ${-up})`);
    const arbor = part(lane, "arbor");
    arbor.setAttribute("transform", `translate(0 ${-down})`);
    stretch(part(lane, "lift"), -up);
    stretch(part(lane, "purchase"), -down);
    lane.classList.toggle("is-past", set.over[index]);
    said.classList.toggle("word-over", set.over[index]);
    svg.querySelector("[data-part=readout]")?.classList.toggle("word-over", set.over[index]);
    handle.setAttribute("aria-valuenow", set.heights[index]);
    handle.setAttribute("aria-valuetext", `${set.at[index]}, ${set.says[index]}`);
    tell(svg, Number(arbor.dataset.x), `set ${handle.dataset.set} at ${set.at[index]}: `, set.says[index]);
    said.textContent = `Set ${handle.dataset.set} at ${set.at[index]}: ${set.says[index]}. ${TRIED}.`;
    look(svg, lane, arbor);
  }
  function stretch(line, by) {
    if (!line.dataset.y2) line.dataset.y2 = line.getAttribute("y2");
    line.setAttribute("y2", Number(line.dataset.y2) + by);
  }
  // On the clear paper above the lane, in place of what is said there of the marked set.
  function tell(svg, x, where, felt) {
    const words = svg.querySelector("[data-part=readout-line]");
    if (!words) return;  // a phone reads it at the foot of its window
    const left = x > svg.viewBox.baseVal.width / 2;
    words.setAttribute("x", left ? x - 22 : x + 22);
    words.setAttribute("text-anchor", left ? "end" : "start");
    words.querySelector("[data-part=readout-where]").textContent = where;
    words.querySelector("[data-part=readout]").textContent = felt;
    words.querySelector("[data-part=readout-kept]").textContent = ` · ${TRIED[0].toLowerCase()}${TRIED.slice(1)}`;
    const told = svg.querySelector("[data-part=told]");
    if (told) told.setAttribute("visibility", "hidden");
    const box = words.getBoundingClientRect();  // scrolled out of the window it is read at the foot
    document.body.classList.toggle("readout-away", box.bottom < 0 || box.top > innerHeight);
  }
  const wait = () => { said.textContent = failed ? "No answer: nothing can be pulled until this page is loaded again." : "Waiting for figures."; };
  // An arbor that is below the window is seen through a glass: the same lane drawn a second time, its wall alone.
  const glass = document.getElementById("glass"), FAR = 420;
  function look(svg, lane, arbor) {
    const box = arbor.getBoundingClientRect();
    const away = box.width > 0 && (box.bottom > innerHeight || box.top < 0);
    glass.hidden = !away;
    if (!away) return;
    const top = Number(svg.dataset.wall) - 8, tall = Number(svg.dataset.wallFoot) - top + 8, x = Number(arbor.dataset.x);
    const drawn = document.createElementNS("http://www.w3.org/2000/svg", "svg"), copy = lane.cloneNode(true);
    for (const one of copy.querySelectorAll(".handle, a")) one.remove();
    copy.removeAttribute("id");
    drawn.setAttribute("viewBox", `${x - 24} ${top} 48 ${tall}`);
    drawn.append(copy);
    glass.querySelector("svg")?.remove();
    glass.append(drawn);
    glass.querySelector("p").textContent = `arbor ${lane.dataset.set}`;
    glass.style.left = `${clearOf(svg, lane, glass.offsetWidth)}px`;
  }
  // Where the glass hides no lane, as near as that may be; where lanes stand too close for that, beside its own.
  function clearOf(svg, lane, wide) {
    const own = lane.getBoundingClientRect(), gap = 8, middle = (own.left + own.right) / 2;
    const lanes = [...svg.querySelectorAll(".lane")].map((one) => one.getBoundingClientRect());
    const beside = [own, ...lanes].flatMap((one) => [one.right + gap, one.left - gap - wide]);
    const fits = beside.filter((left) => left >= 0 && left + wide <= document.documentElement.clientWidth);
    const off = (left) => Math.abs(left + wide / 2 - middle);
    const nearest = (some) => some.sort((a, b) => off(a) - off(b))[0];
    const clear = nearest(fits.filter((left) => off(left) < FAR && lanes.every((one) => left + wide <= one.left || left >= one.right)));
    return clear ?? nearest(fits.filter((left) => left + wide <= own.left || left >= own.right)) ?? gap;
  }
  const standing = (handle) => {
    const kept = handle.closest(".lane").dataset.station;
    return kept === undefined ? table.sets[handle.dataset.set].start : Number(kept);
  };

  // Touch-action on a shape inside an SVG does not keep Chromium from scrolling instead; this does.
  document.addEventListener("touchstart", (event) => {
    if (event.target.closest(".lane .handle")) event.preventDefault();
  }, { passive: false });
  let held = null;
  document.addEventListener("pointerdown", (event) => {
    const handle = event.target.closest(".lane .handle");
    if (!handle || event.button !== 0) return;
    if (!table) { wait(); return; }
    const svg = handle.closest("svg"), set = table.sets[handle.dataset.set];
    if (!set) return;
    const unit = svg.getBoundingClientRect().height / svg.viewBox.baseVal.height;
    held = { handle, y: event.clientY, from: standing(handle), step: (set.heights[1] - set.heights[0]) * Number(svg.dataset.scale) * unit };
    handle.setPointerCapture(event.pointerId);
    show(handle, held.from);
  });
  document.addEventListener("pointermove", (event) => {
    if (held) show(held.handle, held.from + Math.round((held.y - event.clientY) / held.step));
  });
  for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { held = null; });
  document.addEventListener("keydown", async (event) => {
    const handle = event.target.closest ? event.target.closest(".lane .handle") : null;
    const by = { ArrowUp: 1, ArrowDown: -1, ArrowRight: 1, ArrowLeft: -1, PageUp: 10, PageDown: -10, Home: -1e6, End: 1e6 }[event.key];
    if (!handle || (by === undefined && event.key !== "Enter")) return;
    event.preventDefault();
    if (event.key === "Enter") { location.href = handle.closest(".lane").querySelector("a").getAttribute("href"); return; }
    if (!table) { wait(); await loading; }
    if (failed) wait();
    if (table && document.activeElement === handle && table.sets[handle.dataset.set]) show(handle, standing(handle) + by);
  });

  document.addEventListener("focusout", (event) => { if (event.target.closest(".lane .handle")) glass.hidden = true; });
  addEventListener("scroll", () => { glass.hidden = true; }, { passive: true });

  // The strip shows which lanes the window shows, and a touch on it shows others.
  for (const strip of document.querySelectorAll(".strip")) {
    const lanes = strip.nextElementSibling, seen = strip.querySelector("[data-part=seen]");
    const whole = strip.querySelector("svg").viewBox.baseVal.width;
    const follow = () => {
      if (!lanes.scrollWidth || !lanes.clientWidth) return;  // the other size of the picture is shown
      seen.setAttribute("x", (lanes.scrollLeft / lanes.scrollWidth) * whole + 1);
      seen.setAttribute("width", Math.max(0, (lanes.clientWidth / lanes.scrollWidth) * whole - 2));
    };
    strip.addEventListener("click", (event) => {
      const box = strip.getBoundingClientRect();
      lanes.scrollLeft = ((event.clientX - box.left) / box.width) * lanes.scrollWidth - lanes.clientWidth / 2;
    });
    lanes.addEventListener("scroll", follow, { passive: true });
    addEventListener("resize", follow);
    follow();
  }
})();
