import { addressOf, type Cell } from "../../tables";
import type { HandCheck, HandCheckSheet } from "./hand-check";
import { Layout, DIFFERENCE, VALUE } from "./hand-check-layout";

const WIDTHS = [25, 46, 13, 62, 14, 8, 14, 12, 10, 14, 8];

/**
 * Lays one hand calculation out as a sheet: inputs as cells that can be changed, every step a live
 * formula over them, with symbol, meaning, clause and unit, the library's value beside it and the
 * relative difference.
 */
export function handCheckSheet(check: HandCheck, name: string): HandCheckSheet {
  const { trace } = check;
  const { code, provision } = trace;
  const layout = new Layout(trace);
  layout.text({ value: `${check.test}: ${provision.title}`, look: "title" });
  layout.text({
    value: `${code.title} (${code.edition}), ${provision.id}, ${trace.level} level. Units of the edition: ${code.system.name}.`,
    look: "wrapped",
  });
  layout.text({
    value: `To check: type another number into a framed cell of column E and watch the row "ratio now"; undo restores it. Everything else follows by formula. "far" is an edge or spacing too far to matter (kept as 1E+150); "#N/A" is a value that was not given: type a number to give it. The column "library" keeps what the library computed for the original values, so "differs" after a change is correct. A blank or a text in a framed cell, or a required limit that fails, turns the ratio into #N/A.`,
    look: "note",
  });
  // In sight while inputs are changed; it points to the ratio at the foot of the sheet, known once
  // that is laid out.
  const now = layout.rows.length;
  layout.row([]);
  layout.row([]);
  layout.row([]);
  layout.row(
    [
      "symbol",
      "meaning",
      "clause",
      "formula",
      "value",
      "unit",
      "library",
      "difference",
      "check",
      "value in SI",
      "SI unit",
    ].map((value) => ({
      value,
      look: /^(value|library|difference)/.test(value)
        ? ("headingRight" as const)
        : /unit|check/.test(value)
          ? ("headingIndented" as const)
          : ("heading" as const),
    })),
  );
  const frozenRows = layout.rows.length;
  const capacities = trace.parts.map((part) => layout.part(part));
  layout.row([
    { value: "Result", look: "section" },
    ...Array.from({ length: 10 }, (): Cell => ({ value: null, look: "section" })),
  ]);
  const { force } = code.system.inSi;
  const kN = force / 1000;
  const capacity = layout.result(
    "capacity",
    capacities.length > 1 ? "sum over the parts of the group, in kN" : "capacity in kN",
    `IF(${addressOf(VALUE, now + 1)}+${addressOf(VALUE, now + 2)}>0,NA(),(${capacities.join("+")})*${kN})`,
    trace.capacity_N / 1000,
    "kN",
  );
  const load = layout.input(
    "load",
    "peak load of the test (lower bound when the test did not fail in this mode)",
    "",
    check.load,
    "kN",
  );
  const ratio = layout.result(
    "ratio",
    "test-to-predicted ratio = load / capacity",
    `${load}/${capacity}`,
    check.load / (trace.capacity_N / 1000),
    "",
  );
  const factor = layout.input(
    "factor",
    "factor on the capacity: that of the proposal for this test, 1 where it changes nothing",
    "",
    check.factor ?? 1,
    "",
  );
  const factored = layout.result(
    "factored capacity",
    "factor × capacity in kN",
    `${factor}*${capacity}`,
    ((check.factor ?? 1) * trace.capacity_N) / 1000,
    "kN",
  );
  layout.result(
    "ratio with the factor",
    "test-to-predicted ratio = load / factored capacity",
    `${load}/${factored}`,
    check.load / (((check.factor ?? 1) * trace.capacity_N) / 1000),
    "",
  );
  layout.rows[now + 1] = watched(
    "entries",
    "every entry is a number",
    `IF(${addressOf(VALUE, now + 1)}=0,"every entry is a number","a number is needed in"&${layout.namesOfNotNumbers})`,
    layout.notNumbers,
  );
  layout.rows[now + 2] = watched(
    "limits",
    "the provision applies",
    `IF(${addressOf(VALUE, now + 2)}=0,"the provision applies","the provision does not apply: see the limits that fail")`,
    layout.required.length === 0
      ? "0"
      : layout.required.map((cell) => `(${cell}<>"holds")`).join("+"),
  );
  layout.rows[now] = [
    { value: "ratio now", look: "strong" },
    {
      value: "load / capacity with the values as they stand; the library's beside it",
      look: "wrapped",
    },
    null,
    null,
    { value: check.load / (trace.capacity_N / 1000), formula: ratio, look: "result" },
    null,
    check.load / (trace.capacity_N / 1000),
  ];
  const last = layout.rows.length;
  const differences = `${addressOf(DIFFERENCE, frozenRows)}:${addressOf(DIFFERENCE, last - 1)}`;
  const largest = `MAX(${differences})`;
  layout.row([
    { value: "largest difference", look: "strong" },
    null,
    null,
    null,
    { value: 0, formula: largest, look: "plain" },
  ]);
  const difference = addressOf(VALUE, layout.rows.length - 1);
  return {
    sheet: {
      name,
      rows: layout.rows,
      widths: WIDTHS,
      frozenRows,
      frozenColumns: 1,
      merged: layout.merged,
      entries: layout.entries,
    },
    check,
    load,
    capacity,
    ratio,
    difference,
  };
}

/** A row in sight while inputs are changed: what is wrong now, in words, and how often. */
function watched(name: string, fine: string, words: string, times: string): Cell[] {
  return [
    { value: name, look: "strong" },
    { value: fine, formula: words, look: "wrapped" },
    null,
    null,
    { value: 0, formula: times, look: "result" },
  ];
}
