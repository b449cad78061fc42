import { RandomEffectsModel, type Estimated } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import type { PairedTest } from "./steel-pairs";

/** The model with as many slopes as the tests can carry: sizes may coincide with cells. */
export function largestModel(
  tests: readonly PairedTest[],
  studyEffects: boolean,
): {
  readonly size: SizeTerms;
  readonly studies: boolean;
  readonly both: ReturnType<typeof modelOf>;
} {
  const terms: readonly SizeTerms[] = ["by material", "one", "none"];
  const several =
    studyEffects &&
    new Set(tests.filter(({ lowerBound }) => !lowerBound).map(({ study }) => study)).size > 1;
  for (const studies of several ? [true, false] : [false]) {
    for (const size of terms.slice(terms.indexOf(sizeTerms(tests)))) {
      try {
        const both = modelOf(tests, { size, studies, material: true });
        if (both.model.layout.between >= 2) return { size, studies, both };
      } catch (error) {
        if (!(error instanceof NoMaximumError)) throw error;
      }
    }
  }
  throw new NoMaximumError("The cells do not allow the between-series scatter to be estimated");
}

/** Which slopes of ln(diameter) the sizes tested allow. */
type SizeTerms = "none" | "one" | "by material";

function sizeTerms(tests: readonly PairedTest[]): SizeTerms {
  if (tests.some(({ logDiameter }) => !Number.isFinite(logDiameter))) return "none";
  const sizes = (isFrp: boolean): number =>
    new Set(
      tests
        .filter(({ frp, lowerBound }) => frp === isFrp && !lowerBound)
        .map(({ logDiameter }) => logDiameter),
    ).size;
  const [steel, frp] = [sizes(false), sizes(true)];
  return steel > 1 && frp > 1 ? "by material" : steel > 1 || frp > 1 ? "one" : "none";
}

/** Mean ln(diameter) of the FRP bars that failed. */
export function centreOf(tests: readonly PairedTest[]): number {
  const failed = tests.filter(({ frp, lowerBound }) => frp && !lowerBound);
  return failed.reduce((sum, { logDiameter }) => sum + logDiameter, 0) / failed.length;
}

/** What the model holds beside the cells. */
interface Terms {
  readonly size: SizeTerms;
  readonly studies: boolean;
  readonly material: boolean;
}

/** The model of ln(ratio), with the contrast FRP less steel. */
function modelOf(
  tests: readonly PairedTest[],
  { size, studies, material }: Terms,
): { readonly model: RandomEffectsModel; readonly contrast: number[] } {
  const cells = [...new Set(tests.map(({ cell }) => cell))].sort();
  // The first study is the reference: its effect lies in the means of the cells.
  const others = studies
    ? [...new Set(tests.filter(({ lowerBound }) => !lowerBound).map(({ study }) => study))]
        .sort()
        .slice(1)
    : [];
  const centre =
    size === "none"
      ? 0
      : material
        ? centreOf(tests)
        : tests.reduce((sum, { logDiameter }) => sum + logDiameter / tests.length, 0);
  const rowOf = ({ cell, frp, study, logDiameter }: PairedTest): number[] => [
    ...cells.map((name) => (name === cell ? 1 : 0)),
    ...(material ? [frp ? 1 : 0] : []),
    ...others.map((name) => (name === study ? 1 : 0)),
    ...(size === "none" ? [] : [logDiameter - centre]),
    ...(size === "by material" && material ? [frp ? logDiameter - centre : 0] : []),
  ];
  const points = new Map<string, { readonly k: number; readonly row: number[] }>();
  const pointOf = tests.map((test) => {
    const row = rowOf(test);
    const key = row.join(" ");
    const known = points.get(key) ?? { k: points.size, row };
    points.set(key, known);
    return known.k;
  });
  const model = new RandomEffectsModel({
    y: tests.map(({ ratio }) => Math.log(ratio)),
    censored: tests.map(({ lowerBound }) => lowerBound),
    series: tests.map(({ series, cell, frp }) => `${series} ${cell} ${frp}`),
    pointOf,
    points: [...points.values()].map(({ row }) => row),
    cells: cells.length,
  });
  const length = [...points.values()][0]!.row.length;
  return { model, contrast: Array.from({ length }, (_, j) => (j === cells.length ? 1 : 0)) };
}

/** ln of the scatter of one material about its cells; null where it cannot be estimated. */
export function scatterOf(tests: readonly PairedTest[], size: SizeTerms): Estimated | null {
  const failedCells = new Set(
    tests.filter(({ lowerBound }) => !lowerBound).map(({ cell }) => cell),
  );
  const kept = tests.filter(({ cell }) => failedCells.has(cell));
  const several = new Set(kept.map(({ logDiameter }) => logDiameter)).size > 1;
  try {
    const { model } = modelOf(kept, {
      size: size !== "none" && several ? "one" : "none",
      studies: false,
      material: false,
    });
    return model.layout.between < 2 ? null : model.logSd;
  } catch (error) {
    if (error instanceof NoMaximumError) return null;
    throw error;
  }
}
