// The third part: what the reviewer can do, by button.

const isDifferent = (cell) =>
  !["same", "within_tolerance", "waiting", "running"].includes(cell.dataset.verdict);

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
    const wanted =
      mode === "overlay"
        ? radio("beside").checked
          ? "overlaid"
          : "beside"
        : radio("recorded").checked
          ? "rerun"
          : "recorded";
    radio(wanted).checked = true;
  }
  byId("told").textContent =
    groups.length === 0 ? "This cell shows no two figures to compare." : "";
}

function opinion(value) {
  const radio = cells[at]?.querySelector(`.opinion input[value="${value}"]`);
  if (!radio) return;
  radio.checked = true;
  comment(cells[at]);
}

/** What this page knows to be kept of a section's comment; at first what the page came with. */
const kept = new Map();
const keptOf = (section) =>
  kept.get(section) ?? {
    remark: section.querySelector("textarea").defaultValue,
    opinion:
      [...section.querySelectorAll(".opinion input")].find((one) => one.defaultChecked)?.value ??
      "",
  };

/** Comments are sent one after the other, so that each is told against what was kept before it. */
let sending = Promise.resolve();
function comment(section) {
  sending = sending.then(() => sendComment(section));
  return sending;
}
async function sendComment(section) {
  const remark = section.querySelector("textarea").value;
  const opinion = section.querySelector(".opinion input:checked")?.value ?? "";
  const before = keptOf(section);
  if (before.remark === remark && before.opinion === opinion) return "";
  const cell = Number(section.dataset.number);
  const answer = await ask("comment", { cell, remark, opinion, before });
  if (answer !== undefined) kept.set(section, { remark, opinion });
  return answer;
}

const actions = {
  next: async () => {
    await ready;
    const { next } = state.notebooks[place - 1];
    if (next !== null) await run(next);
  },
  all: () => run(cells.length),
  to: () => run(Number(byId("to").value)),
  "run-to": (button) => run(Number(button.closest("section").dataset.number)),
  stop: () => ask("stop"),
  difference: nextDifference,
  help: () => byId("help").showModal(),
  over: () =>
    window.confirm("Run this notebook again from the top in a fresh kernel? Remarks stay.") &&
    ask("over"),
  end: async () => {
    const text = window.confirm(
      "End the review? The report is written; an unsigned review leaves no record.",
    )
      ? await ask("end")
      : undefined;
    if (text !== undefined) {
      events.close();
      byId("told").textContent = text;
    }
  },
};
