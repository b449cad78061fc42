// The second part: puts what the program tells onto the page.

const events = new EventSource("events");
events.onmessage = (event) => {
  state = JSON.parse(event.data);
  arrived();
  void showState();
};
events.onerror = () => {
  if (events.readyState !== EventSource.OPEN)
    byId("told").textContent = "The review program does not answer at the moment.";
};

async function showState() {
  const own = state.notebooks[place - 1];
  const { running } = state;
  byId("bar").value = own.cells.filter((cell) => !/^(waiting|running)/.test(cell)).length;
  byId("progress").textContent = own.progress + ".";
  byId("told").textContent = state.told;
  byId("signed").textContent = state.signed;
  for (const place of document.querySelectorAll(".outcome"))
    place.textContent = state.notebooks[place.dataset.place - 1].outcome;
  const button = (action) => document.querySelector(`.toolbar [data-action="${action}"]`);
  for (const action of ["next", "all", "to"])
    button(action).disabled = running !== null || own.next === null;
  button("stop").disabled = running === null;
  showRunning();
  for (const [index, cell] of own.cells.entries()) await refresh(index, cell);
  await refreshCircumstances(`${own.begun} ${own.next} ${own.cells[0]}`);
  if (!running) follow = false;
}

function showRunning() {
  const running = state?.running;
  const elsewhere =
    running && running.notebook !== place
      ? ` of ${state.notebooks[running.notebook - 1].name}`
      : "";
  byId("running").textContent = running
    ? `Cell ${running.cell}${elsewhere} is running, ${Math.round((Date.now() - running.since) / 1000)} s.`
    : "";
}
setInterval(showRunning, 1000);

/** Puts a cell's new parts in place when what is shown is no longer so. */
async function refresh(index, cell) {
  if (!shown.has(index) && cells[index].dataset.verdict === cell.split(" ")[0])
    shown.set(index, cell);
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
  if (
    follow &&
    document.activeElement?.tagName !== "TEXTAREA" &&
    (parts.verdict === "running" || index === at)
  )
    go(index);
}

let circumstances = "";
/** Reasons come when the kernel is opened, notes with looks and after the last cell. */
async function refreshCircumstances(asOf) {
  if (asOf === circumstances) return;
  circumstances = asOf;
  const answer = await fetch(`${place}/notes`).catch(() => undefined);
  if (answer?.ok) byId("circumstances").innerHTML = await answer.text();
}
