// The last part: listens to buttons, boxes and keys.

document.addEventListener("click", (event) => {
  const button = event.target.closest("button[data-action]");
  if (button) void actions[button.dataset.action](button);
});

document.addEventListener("focusin", (event) => {
  const index = cells.indexOf(event.target.closest("section.cell"));
  if (index < 0 || index === at) return;
  at = index;
  cells.forEach((cell, other) => cell.classList.toggle("current", other === at));
});

// A remark is sent shortly after the last letter, and at once when the box is left.
let writing;
let written;
document.addEventListener("input", (event) => {
  const section = event.target.closest("section.cell");
  if (!section || !event.target.closest(".comment")) return;
  if (written !== section) sendWritten();
  clearTimeout(writing);
  written = section;
  writing = setTimeout(() => sendWritten(), event.target.tagName === "TEXTAREA" ? 400 : 0);
});
function sendWritten(event) {
  clearTimeout(writing);
  // A page that goes has no time to wait for what was sent before.
  if (written) void (event?.type === "pagehide" ? sendComment : comment)(written);
  written = undefined;
}
window.addEventListener("pagehide", sendWritten);
document.addEventListener("change", sendWritten);

byId("look").addEventListener("submit", async (event) => {
  event.preventDefault();
  const text = await ask("look", { expression: byId("expression").value });
  if (text !== undefined) byId("looked").textContent = text;
  circumstances = "";
});
byId("sign").addEventListener("submit", async (event) => {
  event.preventDefault();
  byId("signed").textContent = "";
  await ask("sign", { reviewer: byId("reviewer").value });
});

const keys = {
  n: () => actions.next(),
  t: () => run(at + 1),
  e: () => actions.all(),
  s: () => actions.stop(),
  j: () => go(at + 1),
  k: () => go(at - 1),
  d: nextDifference,
  c: () => cells[at]?.querySelector("details.code summary")?.click(),
  o: () => views("overlay"),
  x: () => views("swap"),
  g: () => opinion("agree"),
  u: () => opinion("question"),
  r: () => cells[at]?.querySelector("textarea").focus(),
  v: () => byId("expression").focus(),
  "?": () => actions.help(),
};
document.addEventListener("keydown", (event) => {
  const writes = event.target.matches?.(
    'textarea, input:not([type="radio"]):not([type="checkbox"])',
  );
  if (event.key === "Escape" && writes) return at >= 0 ? cells[at].focus() : event.target.blur();
  if (
    writes ||
    event.ctrlKey ||
    event.metaKey ||
    event.altKey ||
    byId("help").open ||
    !byId("letters").checked
  )
    return;
  const act = Object.hasOwn(keys, event.key) ? keys[event.key] : undefined;
  if (!act) return;
  event.preventDefault();
  void act();
});

const measureHead = () =>
  document.documentElement.style.setProperty(
    "--head",
    `${document.querySelector("header").offsetHeight + 12}px`,
  );
new ResizeObserver(measureHead).observe(document.querySelector("header"));
