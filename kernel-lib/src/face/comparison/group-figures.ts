import {
  labelWords,
  modeAgreement,
  modeTable,
  type Comparison as Pairs,
  type RatioGroup,
} from "../../comparison";
import {
  fractiles,
  fractilesOf,
  modeMap,
  modeMapOf,
  modeMapsOf,
  predictedTestsOf,
  probabilityPlots,
  ratioAgainstVariable,
  ratioStrip,
  residualsOf,
  spread,
  stripGroupsOf,
  survivalCurves,
  testAgainstPredicted,
  variableLines,
  type SurvivalCurve,
} from "../../figures";
import { columnTitle } from "../../units";
import { modeAgreementWords } from "./mode-words";
import { knownName } from "../results/names";
import type { FigureView } from "../results/result";
import type { EvidenceRow } from "./evidence-row";

/** The figures of a comparison and of its groups. */
export type RatioFigure =
  | "ratio strips"
  | "test against predicted"
  | "ratio against"
  | "spread"
  | "share above"
  | "probability plot"
  | "fractiles"
  | "mode map";

/** What the figures are made from. */
export interface DrawnGroups {
  readonly parts: readonly { readonly pairs: Pairs }[];
  readonly columns: readonly string[];
  /** Codes and level. */
  readonly basis: string;
  /** The rows in words. */
  readonly told: string;
  /** The grouping columns in words. */
  readonly by: string;
  /** Fractile and confidence in words. */
  readonly question: string;
  readonly evidenceColumns: readonly string[];
  numberColumns(): readonly string[];
  rows(): readonly EvidenceRow[];
  groups(): readonly { readonly code: string; readonly group: RatioGroup }[];
  curves(): SurvivalCurve[];
}

/** The figure views of groups of ratios. */
export function groupFigures(drawn: DrawnGroups): Readonly<Record<RatioFigure, FigureView>> {
  const { parts, by, basis: subtitle, told, question } = drawn;
  const groups = (): RatioGroup[] => drawn.groups().map(({ group }) => group);
  const modesTold = (): string => parts.map(({ pairs }) => modeAgreementWords(pairs)).join(" ");
  const [only] = drawn.columns;
  const classColumn = drawn.columns.length === 1 && only !== undefined ? only : "bar_material";
  return {
    "ratio strips": {
      title: `Test-to-predicted ratios by ${by}`,
      subtitle,
      caption: `Open triangles: lower bounds. Bar: estimate and bounds of the fractile (${question}), in general; as tested where fewer than 3 series failed.`,
      make: (text) => ratioStrip({ ...text, groups: stripGroupsOf(groups()) }),
    },
    fractiles: {
      title: `5 % fractile by ${by}`,
      subtitle,
      caption: `As tested and in general (${question}).`,
      make: (text) => fractiles({ ...text, groups: fractilesOf(groups()) }),
    },
    "test against predicted": {
      title: "Peak load against predicted capacity",
      subtitle,
      caption: `${told} Open triangles: lower bounds. The characteristic ratio is drawn for a single group.`,
      make: (text, { color = classColumn }) => {
        const [group, another] = groups();
        return testAgainstPredicted({
          ...text,
          tests: parts.flatMap(({ pairs }) =>
            predictedTestsOf(pairs, pairs.tests.has(color) ? color : "bar_material"),
          ),
          characteristicRatio: another === undefined ? (group?.lower ?? NaN) : NaN,
        });
      },
    },
    "ratio against": {
      title: "Test-to-predicted ratio against a variable",
      subtitle,
      caption: `Plotted against bar diameter unless another column is named. ${told} Open triangles: lower bounds, omitted from the lines. Line: least squares.`,
      make: (text, { x = "bar_diameter_mm", color = classColumn, title }) => {
        const column = knownName("column of numbers", x, drawn.numberColumns());
        const name = knownName("column", color, drawn.evidenceColumns);
        const tests = drawn.rows().map((row) => ({
          x: Number(row[column as keyof EvidenceRow] ?? NaN),
          ratio: row.ratio,
          series: labelWords(name, (row[name as keyof EvidenceRow] ?? null) as string | null),
          censored: row.lower_bound === "yes",
          label: row.test_id,
        }));
        const variable = columnTitle(column);
        return ratioAgainstVariable({
          ...text,
          title: title ?? `Test-to-predicted ratio against ${variable.title.toLowerCase()}`,
          tests,
          fits: variableLines(tests),
          variable: { title: variable.title, unit: variable.unit ?? "–" },
        });
      },
    },
    spread: {
      title: `Spread of test-to-predicted ratios by ${by}`,
      subtitle,
      caption:
        "Failures only: minimum to maximum, quartiles, median and mean. The number of lower bounds is given.",
      make: (text) =>
        spread({
          ...text,
          groups: groups().map(({ label, evidence, lowerBounds }) => ({
            label,
            values: evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio),
            lowerBounds,
          })),
        }),
    },
    "share above": {
      title: `Fraction of tests above each ratio, by ${by}`,
      subtitle,
      caption: "Product-limit estimate with pointwise 95 % bands; ticks are lower bounds.",
      make: (text) => survivalCurves({ ...text, curves: drawn.curves() }),
    },
    "probability plot": {
      title: `Failures about the means of their cells against a fitted distribution, by ${by}`,
      subtitle,
      caption:
        "Groups of at least 5 failures; lower bounds are omitted. Points near the line support the distribution.",
      make: (text) =>
        probabilityPlots({
          ...text,
          panels: drawn.groups().flatMap(({ code, group }) => {
            const part = parts.find(({ pairs }) => pairs.code.id === code);
            return group.n < FEWEST_POINTS || part === undefined
              ? []
              : [{ label: group.label, ...residualsOf(part.pairs, group) }];
          }),
        }),
    },
    "mode map": {
      title: "Observed and predicted failure mode",
      subtitle,
      get caption() {
        return `${modesTold()} Bold: predicted and observed modes agree. ${told}`;
      },
      make: (text) => {
        const judged = parts.filter(({ pairs }) => modeAgreement(modeTable(pairs)).judged > 0);
        const tables = (judged.length > 0 ? judged : parts.slice(0, 1)).map(({ pairs }) => ({
          label: pairs.code.id,
          table: modeTable(pairs),
        }));
        const map = tables.length === 1 ? modeMapOf(tables[0]!.table) : modeMapsOf(tables);
        return { ...modeMap({ ...text, ...map }), alt: `${modesTold()} Counts by observed mode.` };
      },
    },
  };
}

const FEWEST_POINTS = 5;
