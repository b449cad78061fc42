import type { Comparison, RatioGroup } from "../../comparison";
import { interactionRule } from "../../provisions";
import { addressIn, addressOf, type Cell, type Sheet } from "../../tables";
import type { HandCheckSheet } from "./hand-check";
import { type CharacteristicQuestion, FACTOR_SHEET } from "./factor-sheet";
import type { RangesOfRatios } from "./group-by-hand";
import { agreement, addStatistics } from "./group-statistics";
import { cellReader } from "./series-sheet";

const SHEET = "Groups";
const RATIO_WIDTHS = [24, 44, 14, 16, 14, 22, 12, 22, 30, 38];
/** Columns of the ratio, of its series and of its cell. */
const [RATIO, SERIES, CELL] = [4, 7, 8] as const;

/**
 * The ratios of each group with mean, SD, K, the bounds as tested and the verdict as tested as
 * formulas over them. Where a test has a sheet of its own, load and capacity are taken from there,
 * so a change of an input moves the group. Gives the ranges of each group that failed in the mode.
 */
export function ratioSheet(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  question: CharacteristicQuestion,
  checks: readonly HandCheckSheet[],
): { readonly sheet: Sheet; readonly ranges: readonly RangesOfRatios[] } {
  const lognormal = groups[0]?.distribution === "lognormal";
  const rows: Cell[][] = [
    [{ value: "Groups of test-to-predicted ratios", look: "title" }],
    [
      {
        value: `${comparison.code.title} (${comparison.code.edition}), ${comparison.prediction.level} level, ${lognormal ? "lognormal" : "normal"} distribution. Ratio = peak load / capacity. Loads and capacities of tests that have a sheet of their own come from there; the others are values that can be changed. K is looked up on the sheet "${FACTOR_SHEET}". As tested: series effect ignored. In general: for a further series, series effect included.`,
        look: "note",
      },
    ],
    [],
    [
      "test",
      "provision",
      "load (kN)",
      "capacity (kN)",
      "ratio",
      lognormal ? "ln ratio" : "ratio of the library",
      "check",
      "series",
      "cell",
      "remark",
    ].map((value) => ({
      value,
      look: /kN|ratio/.test(value)
        ? ("headingRight" as const)
        : value === "check"
          ? ("headingIndented" as const)
          : ("heading" as const),
    })),
  ];
  const known = new Map(
    checks.map(
      (check) => [`${check.check.test}|${check.check.trace.provision.id}`, check] as const,
    ),
  );
  const ranges = groups.map((group) => addGroup(rows, comparison, group, question, known));
  const sheet = { name: SHEET, rows, widths: RATIO_WIDTHS, frozenRows: 4, merged: [2] };
  return { sheet, ranges };
}

function addGroup(
  rows: Cell[][],
  comparison: Comparison,
  group: RatioGroup,
  question: CharacteristicQuestion,
  known: ReadonlyMap<string, HandCheckSheet>,
): RangesOfRatios {
  rows.push([
    { value: group.label, look: "section" },
    ...Array.from({ length: RATIO_WIDTHS.length - 1 }, (): Cell => ({
      value: null,
      look: "section",
    })),
  ]);
  // Values first: statistics run over one unbroken column of them.
  const lognormal = group.distribution === "lognormal";
  const ordered = [...group.evidence].sort((a, b) => Number(a.bound) - Number(b.bound));
  const first = rows.length;
  const cellOf = cellReader(comparison, group);
  for (const one of ordered) {
    const at = rows.length;
    const test = comparison.tests.text(one.row, "test_id") ?? "";
    const { code, columns, settings } = comparison.prediction;
    const provision =
      one.column < 0
        ? `${code.id}/${interactionRule(code, settings)?.clause ?? ""}`
        : (columns[one.column]?.provision.id ?? "");
    const check = known.get(`${test}|${provision}`);
    const [load, capacity, ratio] = [addressOf(2, at), addressOf(3, at), addressOf(4, at)];
    const from = (value: number, address: string | undefined): Cell =>
      check && address
        ? { value, formula: addressIn(check.sheet.name, address) }
        : { value, look: "input" };
    rows.push([
      test,
      provision,
      from(one.load, check?.load),
      from(one.capacity, check?.capacity),
      { value: one.ratio, formula: `${load}/${capacity}` },
      lognormal ? { value: Math.log(one.ratio), formula: `LN(${ratio})` } : one.ratio,
      lognormal ? null : agreement(ratio, addressOf(5, at)),
      comparison.tests.text(one.row, "series_id") ?? "",
      cellOf(one),
      one.bound ? "lower bound: stopped or failed in another mode" : null,
    ]);
  }
  const last = first + ordered.filter(({ bound }) => !bound).length - 1;
  addStatistics(rows, group, question, { first, last });
  rows.push([]);
  const range = (column: number): string =>
    `${addressIn(SHEET, addressOf(column, first))}:${addressOf(column, last)}`;
  return { ratio: range(RATIO), series: range(SERIES), cell: range(CELL) };
}
