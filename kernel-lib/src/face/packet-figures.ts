import { valueWords, type Comparison, type Evidence, type RatioGroup } from "../comparison";
import type { Invented } from "../dataset";
import {
  beforeAfter,
  fractiles,
  fractilesOf,
  predictedTestsOf,
  probabilityPlots,
  ratioAgainstVariable,
  ratioStrip,
  residualsOf,
  stripGroupsOf,
  testAgainstPredicted,
  variableLines,
  variableTestsOf,
  type Figure,
} from "../figures";
import { className, type BallotSheet } from "../proposals";
import { clauseOf, type CodeDefinition } from "../provisions";
import { LEVEL } from "./packet-question";

/** What the figures of a packet are drawn from. */
export interface FiguresInput {
  /** All pairs of every mode. */
  readonly comparison: Comparison;
  /** Groups of every mode by mode and material. */
  readonly groups: readonly RatioGroup[];
  /** The groups of changed modes by mode, material and study. */
  readonly byStudy: readonly RatioGroup[];
  readonly sheets: readonly BallotSheet[];
  readonly invented: Invented;
}

/** Variables that a prediction may be biased along, as an axis names them. */
const VARIABLES = [
  { column: "embedment_mm", title: "Embedment", unit: "mm" },
  { column: "bar_diameter_mm", title: "Bar diameter", unit: "mm" },
  { column: "edge_1_mm", title: "Edge distance", unit: "mm" },
  { column: "concrete_strength_MPa", title: "Concrete strength", unit: "MPa" },
] as const;

/** Failures below which no figure of a group is drawn. */
const FEWEST = 3;

/** A code as a reader calls it: its title up to the first comma. */
export function named({ title, id }: CodeDefinition): string {
  return title.split(/,| \(/)[0] ?? id;
}

/**
 * The figures of the evidence: ratios and fractiles of every group, test against predicted of every
 * mode judged, probability plots, and of the changed modes the forest by study, the bias against
 * each variable and the reliability before and after.
 */
export function figuresOf(input: FiguresInput): Figure[] {
  const { comparison, groups, byStudy, sheets, invented } = input;
  const subtitle = `${named(comparison.code)}, ${LEVEL} level`;
  const shown = groups.filter(({ n }) => n >= FEWEST);
  if (shown.length === 0) return [];
  const strips = ratioStrip({
    id: "ratio-strips",
    title: "Test-to-predicted ratios by mode and material",
    subtitle,
    invented,
    caption: `${counted(shown)} Open triangles: lower bounds of tests. Diamond: 5 % fractile in general (series effect included) with its one-sided bounds at 90 % confidence.`,
    groups: stripGroupsOf(shown),
  });
  const both = fractiles({
    id: "fractiles",
    title: "5 % fractile of test/predicted, as tested and in general",
    subtitle,
    invented,
    caption:
      "5 % fractile of test/predicted, estimate and one-sided bounds at 90 % confidence. As tested: series effect ignored. In general: for a further series, series effect included, in the cell that decides. Meets: lower bound at least 1.0; falls short: upper bound below 1.0.",
    groups: fractilesOf(shown),
  });
  const plots = probabilityPlots({
    id: "probability-plots",
    title: "Failures about the means of their cells, on normal quantiles",
    subtitle,
    invented,
    caption: `${counted(shown)} A straight row of points supports the distribution of the group. Failures only; tests of a series are correlated.`,
    panels: shown.map((group) => ({ label: group.label, ...residualsOf(comparison, group) })),
  });
  return [
    both,
    strips,
    ...modesOf(shown).map((mode) => scatterOf(mode, input, subtitle)),
    plots,
    ...(byStudy.length === 0
      ? []
      : [
          fractiles({
            id: "forest-by-study",
            title: "Changed modes by study",
            subtitle,
            invented,
            caption: `${counted(byStudy)} Each study is one laboratory's campaign or one paper. Bounds as in the figure of all groups.`,
            groups: fractilesOf(byStudy),
          }),
        ]),
    ...changedModes(sheets).flatMap((mode) =>
      VARIABLES.flatMap((variable) => biasOf(mode, variable, input, subtitle)),
    ),
    ...indexFigure(sheets, subtitle, invented),
  ];
}

const modesOf = (groups: readonly RatioGroup[]): string[] => [
  ...new Set(groups.map(({ by }) => String(by["mode"]))),
];

/** Modes of the changed provisions. */
export function changedModes(sheets: readonly BallotSheet[]): string[] {
  return [...new Set(sheets.flatMap(({ provision }) => provision.modes.map(String)))];
}

/** "384 failures in 88 series; 194 lower bounds." */
function counted(groups: readonly RatioGroup[]): string {
  const sum = (of: (group: RatioGroup) => number): number =>
    groups.reduce((total, group) => total + of(group), 0);
  const bounds = sum(({ lowerBounds }) => lowerBounds);
  return `${sum(({ n }) => n)} failures in ${sum(({ series }) => series)} series; ${bounds} lower bounds.`;
}

/** Clauses of the capacities that evidence is of. */
function clausesOf({ prediction }: Comparison, evidence: readonly Evidence[]): string {
  const ids = evidence.map(({ column }) => prediction.columns[column]?.provision.id ?? "");
  return [...new Set(ids.filter(Boolean))].map(clauseOf).join(", ");
}

function ofMode({ comparison, groups }: FiguresInput, mode: string) {
  const evidence = comparison.evidence.filter((one) => one.mode === mode);
  const own = groups.filter(({ by, n }) => by["mode"] === mode && n > 0);
  const word = valueWords(mode);
  return {
    evidence,
    title: word.charAt(0).toUpperCase() + word.slice(1),
    says: `${counted(own)} Clause ${clausesOf(comparison, evidence)}, ${LEVEL} level.`,
  };
}

function scatterOf(mode: string, input: FiguresInput, subtitle: string): Figure {
  const { evidence, title, says } = ofMode(input, mode);
  return testAgainstPredicted({
    id: `${mode.replaceAll("_", "-")}-test-against-predicted`,
    title: `${title}: peak load against predicted capacity`,
    subtitle,
    size: "one-column",
    invented: input.invented,
    caption: `${says} Failures only. Line: test = predicted.`,
    tests: predictedTestsOf(
      input.comparison,
      "bar_material",
      evidence.filter(({ bound }) => !bound),
    ),
  });
}

function biasOf(
  mode: string,
  { column, title, unit }: (typeof VARIABLES)[number],
  input: FiguresInput,
  subtitle: string,
): Figure[] {
  const { evidence, title: head, says } = ofMode(input, mode);
  const failures = evidence.filter(({ bound }) => !bound);
  const tests = variableTestsOf(input.comparison, column, "bar_material", failures).filter(
    ({ x }) => Number.isFinite(x),
  );
  if (new Set(tests.map(({ x }) => x)).size < 2) return [];
  return [
    ratioAgainstVariable({
      id: `${mode.replaceAll("_", "-")}-bias-${column.replaceAll("_", "-").toLowerCase()}`,
      title: `${head}: test/predicted against ${title.toLowerCase()}`,
      subtitle,
      invented: input.invented,
      size: "one-column",
      caption: `${says} Drawn: the ${tests.length} failures that state the variable. Line: least squares by material, with its 95 % band for the mean, series effect ignored.`,
      tests,
      fits: variableLines(tests, 0.95),
      variable: { title, unit },
    }),
  ];
}

/** Reliability index of the changed classes, before and after. */
function indexFigure(
  sheets: readonly BallotSheet[],
  subtitle: string,
  invented: Invented,
): Figure[] {
  const groups = sheets.flatMap(({ classes }) =>
    classes
      .filter(({ applied, indexBefore }) => applied !== null && indexBefore !== null)
      .map((one) => ({
        label: one.label,
        n: one.n,
        before: one.indexBefore ?? NaN,
        after: one.indexAfter ?? NaN,
        verdicts: `${className(one)}, φ = ${one.phi?.toFixed(2) ?? "–"}`,
      })),
  );
  const [first] = sheets;
  if (first === undefined || groups.length === 0) return [];
  return [
    beforeAfter({
      id: "reliability-before-after",
      title: "Reliability index before and after the changes",
      subtitle,
      invented,
      measure: "Least reliability index β over the load ratios (–)",
      target: first.target,
      caption: `Line: target ${first.target}. Loads: ${first.loads}. The strength reduction is that of the code.`,
      groups,
    }),
  ];
}
