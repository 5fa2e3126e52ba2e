"use strict";
// Before the page is painted: day or dark as it was last chosen here; the reader's own setting where nothing was.
(() => {
  const root = document.documentElement;
  let kept = null;
  try { kept = localStorage.getItem("theme"); } catch { /* a browser that keeps nothing follows the system */ }
  if (kept === "day" || kept === "dark") root.dataset.theme = kept;
  document.addEventListener("click", (event) => {
    if (!event.target.closest("[data-act=theme]")) return;
    const dark = root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
    root.dataset.theme = dark ? "day" : "dark";
    try { localStorage.setItem("theme", root.dataset.theme); } catch { /* stays for this page only */ }
  });
})();
