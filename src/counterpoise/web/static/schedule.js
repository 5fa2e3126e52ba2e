"use strict";
// Sends a schedule with the reader's answers, and shows what came of it. The server reads; nothing is understood here.
(() => {
  const most = 8e6;
  const said = document.getElementById("said"), place = document.getElementById("schedule");
  const giving = document.getElementById("giving"), house = document.getElementById("house");
  let given = null;

  const bytes = (file) => new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result.slice(reader.result.indexOf(",") + 1));
    reader.onerror = () => failed(new Error("The file could not be read."));
    reader.readAsDataURL(file);
  });
  async function ask(address) {
    said.textContent = "Reading…";
    const answer = await fetch(address, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ ...given, house: house.value }),
    }).catch(() => null);
    const told = answer ? await answer.json().catch(() => null) : null;
    if (!answer || !answer.ok) {
      said.textContent = told && told.says ? told.says : "The program does not answer. Is it still running?";
      return null;
    }
    said.textContent = "";
    return told;
  }
  async function read() {
    const told = await ask("/api/schedule");
    if (!told) return false;
    const open = Array.from(place.querySelectorAll("details[open]"), (one) => one.dataset.fold);
    const before = place.querySelector("details") !== null; // what the reader folded stays so
    const { told: about, key } = place.contains(document.activeElement) ? document.activeElement.dataset : {};
    place.innerHTML = told.html;
    if (before) for (const one of place.querySelectorAll("details")) one.open = open.includes(one.dataset.fold);
    const next = Array.from(place.querySelectorAll("select")).find((one) => one.dataset.told === about && one.dataset.key === key);
    if (about && next) next.focus();
    said.textContent = told.says;
    return true;
  }
  document.getElementById("given").addEventListener("submit", async (event) => {
    event.preventDefault();
    const file = document.getElementById("file").files[0], text = document.getElementById("cells").value;
    if (!file && !text.trim()) { said.textContent = "Paste the cells first, or choose a file."; return; }
    if ((file ? file.size : text.length) > most) { said.textContent = "This is too large: 8 MB at most. Take the schedule out alone."; return; }
    given = { columns: {}, units: {}, every: {}, words: {}, sheet: "" };
    if (text.trim()) given.text = text;
    else {
      given.name = file.name.slice(0, 200);
      try { given.file = await bytes(file); } catch (error) { said.textContent = error.message; return; }
      if (!house.value) house.value = file.name.replace(/\.[^.]*$/, "").slice(0, 200);
    }
    if (await read()) giving.open = false;
    else place.textContent = "";
  });
  place.addEventListener("change", async (event) => {
    const { told, key } = event.target.dataset;
    if (!told || !given) return;
    if (told === "sheet") { given.sheet = event.target.value; given.columns = {}; given.words = {}; }
    else if (event.target.value) given[told][key] = event.target.value;
    else delete given[told][key];
    await read();
  });
  place.addEventListener("click", async (event) => {
    const act = event.target.dataset.act;
    if (act === "draw") {
      const told = await ask("/api/schedule/draw");
      if (told) location.assign(told.address);
    }
    if (act === "keep") {
      const told = await ask("/api/schedule/house");
      if (!told) return;
      const address = URL.createObjectURL(new Blob([told.house], { type: "application/yaml" }));
      const link = Object.assign(document.createElement("a"), { href: address, download: "house.yaml" });
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 10000);
    }
  });
})();
