// The review page's own script, in parts that the page joins in order. All state is held by the
// program that serves the page: this only asks it for things, and shows what it tells.
"use strict";
const place = Number(document.body.dataset.notebook);
const cells = [...document.querySelectorAll("section.cell")];
const byId = (id) => document.getElementById(id);
let state = null;
/** Resolves when the program has told the first state. */
let arrived;
const ready = new Promise((done) => (arrived = done));
let at = -1;
let follow = false;
const shown = new Map();

/** Asks the program for something; says on the page what it answers when it refuses. */
async function ask(action, body = {}) {
  try {
    const answer = await fetch(action, {
      method: "POST",
      keepalive: true,
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ notebook: place, ...body }),
    });
    const text = await answer.text();
    if (!answer.ok) throw new Error(text);
    byId("told").textContent = "";
    return text;
  } catch (error) {
    byId("told").textContent =
      error instanceof TypeError
        ? "The review program no longer answers. What it found so far is in its report."
        : error.message;
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
