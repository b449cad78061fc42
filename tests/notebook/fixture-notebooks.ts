import { codeCells, notebookText, readNotebook, runNotebook } from "../../kernel-lib/src/notebook";
import type { Notebook } from "../../kernel-lib/src/notebook";
import { notebookOf } from "./notebook-in-scratch";

// The fixture notebooks, named by what a review says of them. All numbers are invented.

const SHOW = `const display = Symbol.for("code-comparison.display");
const show = (bundle: object) => ({ [display]: () => bundle });
undefined`;

const TABLE = `// Ratios by series
const rows = [{ series: "A", ratio: 1.1 + 0.2 }, { series: "B", ratio: 0.913 }];
show({
  "application/vnd.code-comparison.table+json": { columns: [{ key: "series" }, { key: "ratio" }], rows, key: ["series"] },
  "text/html": "<table><caption>Ratios (invented)</caption>" + rows.map((row) => \`<tr data-row-key="\${row.series}"><td data-column="series">\${row.series}</td><td data-column="ratio">\${row.ratio.toFixed(3)}</td></tr>\`).join("") + "</table>",
  "text/plain": rows.map((row) => \`\${row.series}  \${row.ratio.toFixed(3)}\`).join("\\n"),
})`;

const FIGURE = `// Ratio against diameter
show({
  "application/vnd.plotly.v1+json": { data: [{ type: "scatter", name: "tests", x: [10, 13, 16], y: [1.21, 1.05, 0.97] }], layout: { title: { text: "Ratio (invented)" } } },
  "image/svg+xml": '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><circle cx="10" cy="10" r="3" fill="black"/></svg>',
  "text/plain": "figure: ratio against diameter, 3 points",
})`;

const HOSTILE = [
  "<p onclick='alert(1)' style='color:red;background:url(https://example.invalid/x)'>shown</p>",
  "<script>globalThis.hostile = 1</script><img src='https://example.invalid/x.png' onerror='globalThis.hostile = 2'>",
  "<iframe src='https://example.invalid'></iframe><a href='javascript:alert(1)'>link</a>",
  "<svg><script>globalThis.hostile = 3</script><use href='https://example.invalid#a'/><foreignObject><body onload='alert(1)'></body></foreignObject><circle r='3' onload='globalThis.hostile = 4'/></svg>",
  "<form action='https://example.invalid'><button>send</button></form><style>@import url(https://example.invalid/x.css);</style>",
  "<meta http-equiv='refresh' content='0;url=https://example.invalid'>",
].join("");
const MARKUP = `// Markup that must not act\nshow({ "text/html": "${HOSTILE}", "text/plain": "</pre><script>globalThis.hostile = 5</script>" })`;

const PROSE = { cell_type: "markdown", source: "# Invented numbers for tests of the review" };
const STUDY = [PROSE, SHOW, TABLE, FIGURE, "// Printed\nconsole.log('mean', 1.1065, 'of', 2);"];

/**
 * What each fixture is made of: its cells, whether they are run, and what is then falsified in the
 * record.
 */
export const FIXTURE_MAKERS: Readonly<Record<string, () => Promise<string>>> = {
  "study-same.ipynb": () => recorded(STUDY),
  "table-tolerance.ipynb": () =>
    recorded(STUDY, (shown) => (tableRow(shown, 0)["ratio"] = 1.3000000000001)),
  "table-changed-number.ipynb": () =>
    recorded(STUDY, (shown) => (tableRow(shown, 1)["ratio"] = 0.931)),
  "curve-changed-figure.ipynb": () =>
    recorded(STUDY, (shown) => (figureTrace(shown)["y"] = [1.21, 1.05, 0.79])),
  "page-hostile-html.ipynb": () => recorded([SHOW, MARKUP]),
  "print-floods.ipynb": () =>
    recorded([
      "// Prints 20,000 lines\nfor (let line = 1; line <= 20000; line++) console.log('line', line);",
    ]),
  "bar-fails.ipynb": () =>
    unrecorded([
      "const depth: number = -3;",
      "// Depth check\nif (depth <= 0) {\n  throw new RangeError(`embedment must be above 0 mm, got ${depth}`);\n}",
      "'after'",
    ]),
  "loop-hangs.ipynb": () => unrecorded(["'before'", "// Never ends\nfor (;;) {}", "'after'"]),
  "end-exits.ipynb": () =>
    unrecorded(["'before'", "// Ends its process\nprocess.exit(3);", "'after'"]),
  "promise-late-rejection.ipynb": () =>
    unrecorded([
      "// Leaves a rejection behind\nsetTimeout(() => void Promise.reject(new Error('too late')), 50);\n'started'",
      "'next'",
    ]),
  "plain-not-recorded.ipynb": () => unrecorded(["1 + 1"]),
};

/** As an older program would write it: without cell ids, never run. */
async function unrecorded(cells: readonly string[]): Promise<string> {
  return JSON.stringify({
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {},
    cells: cells.map((source) => ({
      cell_type: "code",
      metadata: {},
      source,
      outputs: [],
      execution_count: null,
    })),
  });
}

/**
 * Run in the real kernel, then changed. Without the record of what it ran with, which changes with
 * every build.
 */
async function recorded(
  cells: readonly (string | object)[],
  falsify: (shown: Shown[]) => void = () => undefined,
): Promise<string> {
  const notebook = structuredClone(await runOf(cells));
  falsify(bundlesOf(notebook));
  const { code_comparison: _recorded, ...metadata } = notebook.metadata;
  return notebookText({ ...notebook, metadata });
}

const runs = new Map<readonly (string | object)[], Promise<Notebook>>();
/** Each list of cells is run once, however many fixtures are made of it. */
function runOf(cells: readonly (string | object)[]): Promise<Notebook> {
  const known = runs.get(cells) ?? runOnce(cells);
  runs.set(cells, known);
  return known;
}

async function runOnce(cells: readonly (string | object)[]): Promise<Notebook> {
  const file = notebookOf(
    cells.map((cell) => ({
      ...(typeof cell === "string" ? { source: cell } : cell),
      id: undefined,
    })),
  );
  const run = await runNotebook(file);
  if (run.failure) throw new Error(`${file}: ${run.failure.message}`);
  return readNotebook(file);
}

type Shown = Record<string, unknown>;

function bundlesOf(notebook: Notebook): Shown[] {
  return codeCells(notebook).flatMap(({ cell }) =>
    cell.outputs.flatMap((output) => ("data" in output ? [output.data] : [])),
  );
}

function tableRow(shown: readonly Shown[], row: number): Record<string, unknown> {
  const table = shown
    .map((bundle) => bundle["application/vnd.code-comparison.table+json"])
    .find(Boolean) as { rows: Record<string, unknown>[] };
  return table.rows[row] ?? {};
}

function figureTrace(shown: readonly Shown[]): Record<string, unknown> {
  const figure = shown.map((bundle) => bundle["application/vnd.plotly.v1+json"]).find(Boolean) as {
    data: Record<string, unknown>[];
  };
  return figure.data[0] ?? {};
}
