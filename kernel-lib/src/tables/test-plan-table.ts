import { valueWords } from "../comparison";
import { notComputedWords, type PlannedTests } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** What the stated probability rests on, and by how much it was missed in simulation. */
const PROMISE_NOTE = [
  "simulated probability of a correct verdict in general after the further failures; the parameters of the distribution are sampled from their uncertainty.",
  "Checked with the distribution fitted to 3 to 8 series of 3 (SD 0.2, ICC 0.2 and 0.6): at true fractiles of 0.70, 0.85, 1.15 and 1.40,",
  "36 plans stated 0.81 on average and 0.94 gave a correct verdict; at 0.95 and 1.05, 10 plans stated 0.80 and 0.30 gave a correct verdict,",
  "the others remained undecided and none was wrong",
].join(" ");

/** The plan of the next campaign, one line a cell of mode, material and size. */
export function testPlanTable(plan: readonly PlannedTests[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["mode", "material", "size"],
    columns: [
      { key: "mode", title: "mode", kind: "text" },
      { key: "material", title: "material", kind: "text" },
      { key: "size", title: "size", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      {
        key: "series_present",
        title: "series",
        kind: "integer",
        note: "with at least one failure in the mode",
      },
      {
        key: "present",
        title: "present verdict",
        kind: "verdict",
        note: "in general, series effect included",
      },
      {
        key: "fractile",
        title: "fitted fractile",
        kind: "number",
        note: "median estimate, from the tests named under basis",
      },
      { key: "basis", title: "basis", kind: "text" },
      { key: "further", title: "further failures", kind: "integer" },
      {
        key: "probability",
        title: "right verdict",
        kind: "number",
        digits: 2,
        limit: null,
        note: PROMISE_NOTE,
      },
      {
        key: "specimens",
        title: "specimens",
        kind: "integer",
        note: "further failures divided by the probability that the mode governs, in whole series; blank where a mode is not computed",
      },
      { key: "embedment", title: "embedment", kind: "number", unit: "mm" },
      { key: "edge", title: "edge 1", kind: "number", unit: "mm", note: "blank: remote" },
      { key: "group", title: "bars", kind: "text", note: "group of four with its spacing in mm" },
      {
        key: "governs",
        title: "mode governs",
        kind: "number",
        digits: 2,
        limit: null,
        note: "blank where a mode is not computed, since its probability is unknown",
      },
      { key: "rival", title: "else", kind: "text" },
      { key: "not_computed", title: "not computed", kind: "text" },
      { key: "load", title: "load", kind: "number", unit: "kN" },
      { key: "finding", title: "finding", kind: "verdict" },
    ],
    rows: plan.map(({ cell, settle, specimen, specimens, finding }) => ({
      mode: valueWords(cell.mode),
      material: valueWords(cell.material),
      size: cell.size,
      n: cell.group?.n ?? 0,
      n_lower_bounds: cell.group?.lowerBounds ?? 0,
      series_present: cell.group?.series ?? 0,
      present: cell.group?.verdict ?? "no tests",
      fractile: cell.model?.fractile ?? null,
      basis: cell.basis,
      further: finding === "settled" ? 0 : (settle?.further ?? null),
      probability: settle?.probability ?? null,
      specimens,
      embedment: specimen?.embedment_mm ?? null,
      edge: specimen?.edge_1_mm ?? null,
      group:
        specimen === null
          ? null
          : specimen.bars === 1
            ? "1"
            : `${specimen.bars} at ${specimen.spacing_mm ?? NaN}`,
      governs: specimen === null || specimen.notComputed.length > 0 ? null : specimen.probability,
      rival: specimen && specimen.rivalProbability > 0 ? valueWords(specimen.rival) : null,
      not_computed:
        specimen && specimen.notComputed.length > 0 ? notComputedWords(specimen.notComputed) : null,
      load: specimen?.load_kN ?? null,
      finding,
    })),
  });
}
