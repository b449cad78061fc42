import type { Comparison, Evidence, RatioGroup } from "../../comparison";
import { clauseOf, interactionTrace, trace } from "../../provisions";
import { addressIn, sheetNames, workbookBytes, type Cell, type Sheet } from "../../tables";
import { handCheckSheet } from "./hand-check-sheet";
import { SAME } from "./hand-check-layout";
import { type HandCheck, type HandCheckSheet } from "./hand-check";
import { factorSheet, type CharacteristicQuestion } from "./factor-sheet";
import { ratioSheet } from "./ratio-sheets";
import { seriesSheet } from "./series-sheet";

/** What a hand-check workbook holds. */
export interface HandCheckContent {
  readonly title: string;
  /** Shown on the first sheet, e.g. that demonstration data are invented. */
  readonly caution: string;
  readonly checks: readonly HandCheck[];
  /** Groups to recompute; left out, the workbook holds hand calculations alone. */
  readonly groups?: {
    readonly comparison: Comparison;
    readonly of: readonly RatioGroup[];
  } & Partial<CharacteristicQuestion>;
}

/**
 * Hand calculations of pieces of evidence: one for each, by the provision its ratio rests on.
 * @param factorOf capacity with a proposal over the present one; 1 when left out
 */
export function handChecksOf(
  comparison: Comparison,
  evidence: readonly Evidence[],
  factorOf: (one: Evidence) => number = () => 1,
): HandCheck[] {
  return evidence.map((one) => {
    const { row, column, load } = one;
    const factor = factorOf(one);
    const test = comparison.tests.text(row, "test_id") ?? `row ${row + 1}`;
    const joint = column < 0 ? interactionTrace(comparison.prediction, row) : null;
    if (joint !== null) return { test, load, factor, trace: joint };
    const provision = comparison.prediction.columns[column]?.provision;
    if (!provision)
      throw new Error(
        `Evidence names the provision column ${column}; expected one below ${comparison.prediction.columns.length}.`,
      );
    return {
      test,
      load,
      factor,
      trace: trace(
        comparison.code,
        provision,
        comparison.tests,
        row,
        comparison.prediction.settings,
      ),
    };
  });
}

/**
 * One piece of evidence of each group: the value nearest the group's mean, so that the chosen test
 * is an ordinary one.
 */
export function typicalEvidence(groups: readonly RatioGroup[]): Evidence[] {
  return groups.flatMap(({ evidence, mean }) => {
    const values = evidence.filter(({ bound }) => !bound);
    const far = ({ ratio }: Evidence): number => Math.abs(ratio - (mean ?? ratio));
    return values.length === 0
      ? []
      : [values.reduce((nearest, one) => (far(one) < far(nearest) ? one : nearest))];
  });
}

/**
 * The sheets of a hand-check workbook: a guide, one sheet for each hand calculation, the groups and
 * the factors K. Every step is a live formula; change an input and the ratio, its group and the
 * verdict move.
 * @throws Error for a hand calculation whose capacity is withheld
 */
export function handCheckSheets(content: HandCheckContent): Sheet[] {
  const withheld = content.checks.find(({ trace: { capacity_N } }) => !Number.isFinite(capacity_N));
  if (withheld)
    throw new Error(
      `${withheld.trace.provision.id} gives no capacity for ${withheld.test}; expected tests to which the provision applies.`,
    );
  const names = sheetNames([
    "Guide",
    "Groups",
    "Series",
    "K",
    ...content.checks.map(
      ({ test, trace: { provision } }) => `${test} ${provision.id.split("/")[1] ?? ""}`,
    ),
  ]).slice(4);
  const checks = content.checks.map((check, n) => handCheckSheet(check, names[n] ?? ""));
  const question: CharacteristicQuestion = {
    fractile: content.groups?.fractile ?? 0.05,
    confidence: content.groups?.confidence ?? 0.9,
  };
  const grouped = content.groups ? groupSheets(content.groups, question, checks) : [];
  return [guide(content, checks), ...grouped, ...checks.map(({ sheet }) => sheet)];
}

function groupSheets(
  { comparison, of }: NonNullable<HandCheckContent["groups"]>,
  question: CharacteristicQuestion,
  checks: readonly HandCheckSheet[],
): Sheet[] {
  const { sheet, ranges } = ratioSheet(comparison, of, question, checks);
  const named = of.map((group, n) => ({ group, ranges: ranges[n]! }));
  return [sheet, seriesSheet(comparison, named, question), factorSheet(of, question)];
}

/** The hand-check workbook as a file; the same content gives the same bytes. */
export function handCheckWorkbook(content: HandCheckContent): Uint8Array {
  return workbookBytes(content.title, handCheckSheets(content));
}

function guide(content: HandCheckContent, checks: readonly HandCheckSheet[]): Sheet {
  const rows: Cell[][] = [];
  const merged: number[] = [];
  const text = (value: string, look: "title" | "wrapped" | "strong"): void => {
    rows.push([{ value, look }]);
    merged.push(rows.length);
  };
  text(content.title, "title");
  text(content.caution, "strong");
  text(
    'How to check. 1. Choose a test in the list below and open its sheet (the tabs at the foot). 2. Follow the steps from top to bottom beside your copy of the code: each row names its clause, formula and unit. 3. Type another number into a framed cell of column E, e.g. the embedment h_ef: every step, the capacity and the row "ratio now" move. 4. Undo.',
    "wrapped",
  );
  text(
    "The ratio is the peak load of the test over the predicted capacity: below 1 the test failed at less than the code predicts. Nothing in this workbook is locked and nothing runs but formulas.",
    "wrapped",
  );
  text(
    'The column "library" keeps what the library computed. "agrees" means equal to one part in a thousand million; rounding of the last digits is all that may differ. How a group of bars is divided into parts that act together was decided for the values as they were; after a change of spacing check that division by hand.',
    "wrapped",
  );
  if (content.groups)
    text(
      'The sheet "Groups" recomputes mean, standard deviation, K, the 5 % fractile with its bounds and the verdict as tested of each group from the ratios, and takes load and capacity from the sheets below where there is one. The verdict in general, with the series effect included, is printed from the library. The sheet "Series" follows it by hand, from the mean squares between and within series to the bounds, and shows how far the library is from that.',
      "wrapped",
    );
  rows.push([]);
  rows.push(
    ["sheet", "code", "provision", "level", "test / predicted", "largest difference", "check"].map(
      (value) => ({
        value,
        look: /^(test|largest)/.test(value)
          ? ("headingRight" as const)
          : value === "check"
            ? ("headingIndented" as const)
            : ("heading" as const),
      }),
    ),
  );
  for (const one of checks) {
    const at = rows.length + 1;
    const { trace: of, load } = one.check;
    rows.push([
      one.sheet.name,
      of.code.id,
      {
        value: `${of.provision.title}${/^\d/.test(clauseOf(of.provision.id)) ? `, clause ${clauseOf(of.provision.id)}` : ""}`,
        look: "wrapped",
      },
      of.level,
      { value: load / (of.capacity_N / 1000), formula: addressIn(one.sheet.name, one.ratio) },
      { value: 0, formula: addressIn(one.sheet.name, one.difference) },
      {
        value: "agrees",
        formula: `IF(F${at}<=${SAME.toExponential().toUpperCase()},"agrees","differs")`,
        look: "unit",
      },
    ]);
  }
  return { name: "Guide", rows, widths: [32, 20, 66, 11, 22, 18, 11], merged };
}
