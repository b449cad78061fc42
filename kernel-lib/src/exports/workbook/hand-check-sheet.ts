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
    value: `To check: type another number into a framed cell of column E and watch the row "ratio now"; undo brings the old one back. Everything else follows by formula. "far" is a distance without end (kept as 1E+150), "#N/A" a value that was not given: type a number to give it. The column "library" keeps what the library computed for the values as they were, so after a change "differs" is right.`,
    look: "note",
  });
  // In sight while inputs are changed; it points to the ratio at the foot of the sheet, known once
  // that is laid out.
  const now = layout.rows.length;
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
    `(${capacities.join("+")})*${kN}`,
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
  layout.limits(trace);
  return {
    sheet: {
      name,
      rows: layout.rows,
      widths: WIDTHS,
      frozenRows,
      frozenColumns: 1,
      merged: layout.merged,
    },
    check,
    load,
    capacity,
    ratio,
    difference,
  };
}
