// The review page's own script. All state is held by the program that serves the page: this
// only asks it for things, and shows what it tells through the event stream.
"use strict";
const place = Number(document.body.dataset.notebook);
const cells = [...document.querySelectorAll("section.cell")];
const byId = (id) => document.getElementById(id);
let state = null;
let at = -1;
let follow = false;
const shown = new Map();

/** Asks the program for something; says on the page what it answers when it refuses. */
async function ask(action, body = {}) {
  try {
    const answer = await fetch(action, { method: "POST", keepalive: true, headers: { "content-type": "application/json" }, body: JSON.stringify({ notebook: place, ...body }) });
    const text = await answer.text();
    if (!answer.ok) throw new Error(text);
    byId("told").textContent = "";
    return text;
  } catch (error) {
    byId("told").textContent = error instanceof TypeError ? "The review program no longer answers. What it found so far is in its report." : error.message;
    return undefined;
  }
}

function go(to, focus = true) {
  if (cells.length === 0) return;
  at = Math.max(0, Math.min(cells.length - 1, to));
  cells.forEach((cell, index) => cell.classList.toggle("current", index === at));
  if (focus) cells[at].focus({ preventScroll: true });
  cells[at].scrollIntoView({ block: "start" });
}

// Events

const events = new EventSource("events");
events.onmessage = (event) => {
  state = JSON.parse(event.data);
  void showState();
};
events.onerror = () => {
  if (events.readyState !== EventSource.OPEN) byId("told").textContent = "The review program does not answer at the moment.";
};

async function showState() {
  const own = state.notebooks[place - 1];
  const { running } = state;
  byId("bar").value = own.cells.filter((cell) => !/^(waiting|running)/.test(cell)).length;
  byId("progress").textContent = own.progress + ".";
  byId("told").textContent = state.told;
  byId("signed").textContent = state.signed;
  for (const place of document.querySelectorAll(".outcome")) place.textContent = state.notebooks[place.dataset.place - 1].outcome;
  const button = (action) => document.querySelector(`.toolbar [data-action="${action}"]`);
  for (const action of ["next", "all", "to"]) button(action).disabled = running !== null || own.next === null;
  button("stop").disabled = running === null;
  showRunning();
  for (const [index, cell] of own.cells.entries()) await refresh(index, cell);
  await refreshCircumstances(`${own.begun} ${own.next} ${own.cells[0]}`);
  if (!running) follow = false;
}

function showRunning() {
  const running = state?.running;
  const elsewhere = running && running.notebook !== place ? ` of ${state.notebooks[running.notebook - 1].name}` : "";
  byId("running").textContent = running ? `Cell ${running.cell}${elsewhere} is running, ${Math.round((Date.now() - running.since) / 1000)} s.` : "";
}
setInterval(showRunning, 1000);

/** Puts a cell's new parts in place when what is shown is no longer so. */
async function refresh(index, cell) {
  if (!shown.has(index) && cells[index].dataset.verdict === cell.split(" ")[0]) shown.set(index, cell);
  if (shown.get(index) === cell) return;
  const before = shown.get(index);
  shown.set(index, cell);
  const answer = await fetch(`${place}/${index + 1}`).catch(() => undefined);
  if (!answer?.ok) return void shown.set(index, before);
  const parts = await answer.json();
  // The cell may have gone on while this was on its way; the next event brings that.
  shown.set(index, parts.state);
  const section = cells[index];
  section.dataset.verdict = parts.verdict;
  section.querySelector(".cell-heading").innerHTML = parts.heading;
  section.querySelector(".body").innerHTML = parts.body;
  if (follow && document.activeElement?.tagName !== "TEXTAREA" && (parts.verdict === "running" || index === at)) go(index);
}

let circumstances = "";
/** Reasons come when the kernel is opened, notes with looks and after the last cell. */
async function refreshCircumstances(asOf) {
  if (asOf === circumstances) return;
  circumstances = asOf;
  const answer = await fetch(`${place}/notes`).catch(() => undefined);
  if (answer?.ok) byId("circumstances").innerHTML = await answer.text();
}

// Actions

const isDifferent = (cell) => !["same", "within_tolerance", "waiting", "running"].includes(cell.dataset.verdict);

function nextDifference() {
  for (let step = 1; step <= cells.length; step++) {
    const to = (at + step + cells.length) % cells.length;
    if (isDifferent(cells[to])) return go(to);
  }
  byId("told").textContent = "No difference among the cells rerun so far.";
}

function run(to) {
  follow = true;
  return ask("run", { to });
}

function views(mode) {
  const groups = [...(cells[at]?.querySelectorAll("fieldset.view") ?? [])];
  for (const group of groups) {
    const radio = (value) => group.querySelector(`input[value="${value}"]`);
    const wanted = mode === "overlay" ? (radio("beside").checked ? "overlaid" : "beside") : radio("recorded").checked ? "rerun" : "recorded";
    radio(wanted).checked = true;
  }
  byId("told").textContent = groups.length === 0 ? "This cell shows no two figures to compare." : "";
}

function opinion(value) {
  const radio = cells[at]?.querySelector(`.opinion input[value="${value}"]`);
  if (!radio) return;
  radio.checked = true;
  comment(cells[at]);
}

function comment(section) {
  const remark = section.querySelector("textarea").value;
  const chosen = section.querySelector(".opinion input:checked")?.value ?? "";
  return ask("comment", { cell: Number(section.dataset.number), remark, opinion: chosen });
}

const actions = {
  next: () => state && state.notebooks[place - 1].next !== null && run(state.notebooks[place - 1].next),
  all: () => run(cells.length),
  to: () => run(Number(byId("to").value)),
  "run-to": (button) => run(Number(button.closest("section").dataset.number)),
  stop: () => ask("stop"),
  difference: nextDifference,
  help: () => byId("help").showModal(),
  over: () => window.confirm("Run this notebook again from the top in a fresh kernel? Remarks stay.") && ask("over"),
  end: async () => {
    const text = window.confirm("End the review? The report is written; an unsigned review leaves no record.") ? await ask("end") : undefined;
    if (text !== undefined) {
      events.close();
      byId("told").textContent = text;
    }
  },
};

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
  writing = setTimeout(sendWritten, event.target.tagName === "TEXTAREA" ? 400 : 0);
});
function sendWritten() {
  clearTimeout(writing);
  if (written) void comment(written);
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
  const writes = event.target.matches?.('textarea, input:not([type="radio"]):not([type="checkbox"])');
  if (event.key === "Escape" && writes) return at >= 0 ? cells[at].focus() : event.target.blur();
  if (writes || event.ctrlKey || event.metaKey || event.altKey || byId("help").open || !byId("letters").checked) return;
  const act = Object.hasOwn(keys, event.key) ? keys[event.key] : undefined;
  if (!act) return;
  event.preventDefault();
  void act();
});

const measureHead = () => document.documentElement.style.setProperty("--head", `${document.querySelector("header").offsetHeight + 12}px`);
new ResizeObserver(measureHead).observe(document.querySelector("header"));
