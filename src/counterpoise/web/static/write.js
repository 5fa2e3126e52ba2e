"use strict";
// Writes what a reader typed into a document, and shows what came of it. What may be written the server decides.
(() => {
  const root = document.body.dataset.root || "";
  const one = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
  async function send(address, body, said, { plain = false, placed = null } = {}) {
    said.textContent = "Writing…";
    said.className = "answer";
    const answer = await fetch(root + address, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(plain ? body : { ...body, operation: one() }),
    }).catch(() => null);
    const told = answer ? await answer.json().catch(() => null) : null;
    if (answer && answer.ok) return told;
    said.className = "answer refused";
    said.textContent = told && told.says ? told.says : "The program does not answer. Nothing was written.";
    if (placed && told && told.problems) placed(told.problems);
    else if (told && told.where) {
      const more = document.createElement("details"), head = document.createElement("summary");
      head.textContent = "where in the text";
      more.append(head, told.where.join(" "));
      said.append(more);
    }
    return null;
  }
  // On the document: a set's page draws its forms anew after each change.
  document.addEventListener("submit", async (event) => {
    const form = event.target.closest("form.asked");
    if (!form) return;
    event.preventDefault();
    const value = form.elements.value.value.trim(), said = form.querySelector(".answer");
    if (!value) { said.textContent = "Nothing is typed yet."; return; }
    const told = await send("/api/write", { document: form.dataset.document, paths: JSON.parse(form.dataset.paths), seen: JSON.parse(form.dataset.seen), value }, said);
    if (told) again(told.says, form);
  });
  // What was kept is said on the page as it now is.
  function again(says, form) {
    const asks = [...document.querySelectorAll("details.ask")], open = form.closest("details.ask");
    sessionStorage.setItem("kept", JSON.stringify({ says, open: asks.indexOf(open), y: scrollY }));
    location.reload();
  }
  document.getElementById("blank")?.addEventListener("submit", async (event) => {
    event.preventDefault();
    const form = event.target, value = (name) => form.elements[name].value;
    const body = { name: value("name").trim(), sets: Number(value("sets")), purchase: value("purchase"), units: value("units") };
    const told = await send("/api/houses", body, form.querySelector(".answer"), { plain: true });
    if (told) location.href = told.address;
  });
  const before = sessionStorage.getItem("kept");
  if (before) {
    sessionStorage.removeItem("kept");
    const { says, open, y } = JSON.parse(before), place = document.getElementById("kept");
    if (place) place.textContent = says;
    const ask = document.querySelectorAll("details.ask")[open];
    if (ask) ask.open = true;
    scrollTo(0, place && place.getBoundingClientRect().top + scrollY < y ? 0 : y);
  }
  document.addEventListener("submit", async (event) => {
    const form = event.target.closest("form.hang-form[data-set]");
    if (!form) return;
    event.preventDefault();
    const words = Object.fromEntries(["piece", "centre", "trim", "name", "weight", "height", "spread"].map((name) => [name, form.elements[name].value]));
    const told = await send(`/api/set/${encodeURIComponent(form.dataset.set)}/hang`, words, form.querySelector(".answer"));
    if (told) again(told.says, form);
  });
  // Each error is told by itself, and leads to its line.
  function listed(text, said, field, problems) {
    const list = document.createElement("ul");
    list.className = "problems";
    for (const { document: kind, line, says } of problems) {
      const item = document.createElement("li");
      if (kind === text.dataset.kind && line) {
        const jump = document.createElement("button");
        jump.type = "button";
        jump.textContent = `line ${line}`;
        jump.addEventListener("click", () => goTo(field, line));
        item.append(jump);
      } else if (kind !== text.dataset.kind) {
        const other = document.createElement("a");
        other.href = `${root}/text/${kind}`;
        other.className = "plain";
        other.textContent = `the ${kind}${line ? `, line ${line}` : ""}`;
        item.append(other);
      }
      const what = document.createElement("span");
      what.textContent = says;
      item.append(what);
      list.append(item);
    }
    said.append(list);
  }
  // That line is marked and brought into sight.
  function goTo(field, line) {
    const lines = field.value.split("\n"), at = Math.min(line, lines.length) - 1;
    const start = lines.slice(0, at).reduce((sum, one) => sum + one.length + 1, 0);
    field.focus();
    field.setSelectionRange(start, start + lines[at].length);
    field.scrollTop = Math.max(0, field.scrollHeight * (at / lines.length) - field.clientHeight / 2);
    field.scrollLeft = 0;
    field.scrollIntoView({ block: "nearest" });
  }
  const text = document.getElementById("text");
  if (text) {
    let kept = true;
    text.addEventListener("input", () => { kept = false; });
    addEventListener("beforeunload", (event) => { if (!kept) event.preventDefault(); });
    document.querySelector("[data-act=retype]")?.addEventListener("click", async () => {
      const told = await send("/api/text/undo", { document: text.dataset.kind, base: Number(text.dataset.revision) }, document.getElementById("said"));
      if (!told) return;
      kept = true;
      location.reload();
    });
    text.addEventListener("submit", async (event) => {
      event.preventDefault();
      const said = document.getElementById("said"), field = text.elements.text;
      const placed = (problems) => {
        said.textContent = `Nothing was kept: ${problems.length === 1 ? "one thing is" : `${problems.length} things are`} to be mended first.`;
        listed(text, said, field, problems);
        const first = problems.find((each) => each.document === text.dataset.kind && each.line);
        if (first) goTo(field, first.line);
      };
      const told = await send("/api/text", { document: text.dataset.kind, base: Number(text.dataset.revision), text: field.value }, said, { placed });
      if (!told) return;
      kept = true;
      text.dataset.revision = String(told.revision);
      said.textContent = told.says;
    });
  }
})();
