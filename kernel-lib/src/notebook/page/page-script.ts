/** The review page's own script: steps by keyboard, remarks, overlaying of figures, signing. */
export const PAGE_SCRIPT = `
"use strict";
const cells = [...document.querySelectorAll("section.cell")];
const place = document.getElementById("place");
let at = 0;
const seen = new Set();
function go(to) {
  if (cells.length === 0) return;
  at = Math.max(0, Math.min(cells.length - 1, to));
  cells.forEach((cell, index) => cell.classList.toggle("current", index === at));
  seen.add(at);
  place.textContent = "Cell " + (at + 1) + " of " + cells.length + ", " + seen.size + " looked at";
  cells[at].focus({ preventScroll: true });
  cells[at].scrollIntoView({ block: "start" });
}
function nextOpen() {
  for (let step = 1; step <= cells.length; step++) {
    const to = (at + step) % cells.length;
    if (!["same", "within_tolerance"].includes(cells[to].dataset.verdict)) return go(to);
  }
}
document.getElementById("next").addEventListener("click", () => go(at + 1));
document.getElementById("previous").addEventListener("click", () => go(at - 1));
document.getElementById("open").addEventListener("click", nextOpen);
document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || /^(TEXTAREA|INPUT)$/.test(event.target.tagName)) return;
  if (event.key === "n") go(at + 1);
  else if (event.key === "p") go(at - 1);
  else if (event.key === "d") nextOpen();
  else if (event.key === "o") cells[at].querySelector(".beside").classList.toggle("overlaid");
  else if (event.key === "r") cells[at].querySelector("textarea").focus();
  else return;
  event.preventDefault();
});
document.getElementById("sign").addEventListener("submit", async (event) => {
  event.preventDefault();
  const remarks = [...document.querySelectorAll("textarea[data-cell]")].map((box) => ({ notebook: Number(box.dataset.notebook), cell: Number(box.dataset.cell), remark: box.value }));
  const told = document.getElementById("told");
  try {
    const answer = await fetch("sign", { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ reviewer: document.getElementById("reviewer").value, remarks }) });
    told.textContent = await answer.text();
  } catch {
    told.textContent = "The review program no longer answers; nothing was signed.";
  }
});
place.textContent = "Cell 0 of " + cells.length;
`;
