import type { Comparison, Evidence } from "../../comparison";
import { normal, RandomEffectsModel, studentT, type Estimated } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { withoutFactor, type CriterionResult } from "./criterion";
import { steelPairs, type PairedTest, type SteelPair, type SteelPairs } from "./steel-pairs";

/** What the comparison with steel gives beside its factor. */
export interface AsSteel extends CriterionResult {
  readonly criterion: "as steel";
  readonly pairs: readonly SteelPair[];
  /** Columns that define the cells. */
  readonly columns: readonly string[];
  /** Failures of FRP bars in cells where no steel bar failed in the mode. */
  readonly unpaired: number;
  /**
   * Bar diameter at which the ratio is taken, mm: the geometric mean of the FRP bars; null where
   * size does not vary.
   */
  readonly diameter_mm: number | null;
  /**
   * Scatter of ln(ratio), steel and FRP, where it differs significantly; null where one scatter
   * serves both.
   */
  readonly scatter: readonly [steel: number, frp: number] | null;
}

/**
 * What is asked, and whether studies have an effect of their own where the tests can carry it
 * (default).
 */
export interface SteelQuestion {
  readonly fractile: number;
  readonly confidence: number;
  readonly studyEffects?: boolean;
}

/** Series of steel from which this criterion is used. */
export const FEWEST_STEEL_SERIES = 3;
/** Significance level at which the scatter of steel and of FRP counts as different. */
const LEVEL = 0.05;

/**
 * The factor that gives FRP bars what the present provision gives steel bars: the ratio of the 5 %
 * fractiles of test/predicted, FRP over steel. What the provision errs for both alike cancels out.
 *
 * Model: ln(ratio) = mean of the cell + delta [FRP] + slopes of ln(diameter), one for both and one
 * more for FRP, + study + series + test, over the cells (layout, adhesive, cracked, set-up,
 * installation, concrete) in which both failed in the mode; lower bounds count as such. A study
 * (laboratory) has an effect of its own where the tests can carry it, so that FRP tested in one
 * laboratory is not charged for steel tested in another. delta is taken at the geometric mean
 * diameter of the FRP bars. The ratio of the fractiles is exp(delta) where steel and FRP scatter
 * alike, else exp(delta - z (s_FRP - s_steel)) with the scatter of separate fits. Its bounds take
 * Student's t with the degrees of freedom between series.
 *
 * Limits: delta is one number for all cells; a few series of steel make the bound wide.
 * @returns no factor where fewer than 3 series of either failed in shared cells, or where steel is
 *   judged by another provision
 * @example asSteel(comparison, gfrpBond, steelBond, { fractile: 0.05, confidence: 0.9 }).factor
 */
export function asSteel(
  comparison: Comparison,
  frp: readonly Evidence[],
  steel: readonly Evidence[],
  question: SteelQuestion,
): AsSteel {
  const found = steelPairs(comparison, frp, steel);
  const base = {
    pairs: found.pairs,
    columns: found.columns,
    unpaired: found.unpaired,
    diameter_mm: null,
    scatter: null,
  };
  const refuse = (basis: string): AsSteel => ({
    ...withoutFactor("as steel", basis),
    criterion: "as steel",
    ...base,
  });
  const provisionsOf = (evidence: readonly Evidence[]): Set<string> =>
    new Set(
      evidence.map(({ column }) => comparison.prediction.columns[column]?.provision.id ?? ""),
    );
  if (steel.length > 0 && ![...provisionsOf(steel)].some((id) => provisionsOf(frp).has(id)))
    return {
      ...refuse(
        `steel bars are judged by another provision (${[...provisionsOf(steel)].join(", ")})`,
      ),
      pairs: [],
      unpaired: 0,
    };
  const series = [false, true].map(
    (isFrp) =>
      new Set(
        found.tests.filter((one) => one.frp === isFrp && !one.lowerBound).map((one) => one.series),
      ).size,
  );
  if (Math.min(...series) < FEWEST_STEEL_SERIES)
    return refuse(
      `${series[0]} series of steel and ${series[1]} of FRP failed in cells where both were tested; at least ${FEWEST_STEEL_SERIES} of each are needed`,
    );
  try {
    return { ...base, ...ratioOfFractiles(found, question), criterion: "as steel" };
  } catch (error) {
    if (error instanceof NoMaximumError) return refuse(error.message);
    throw error;
  }
}

type Ratio = Omit<AsSteel, "pairs" | "columns" | "unpaired" | "criterion">;

function ratioOfFractiles(
  { tests, pairs }: SteelPairs,
  { fractile, confidence, studyEffects = true }: SteelQuestion,
): Ratio {
  const { size, studies, both } = largestModel(tests, studyEffects);
  const delta = both.model.estimate(both.contrast);
  const [ofSteel, ofFrp] = [false, true].map((isFrp) =>
    scatterOf(
      tests.filter(({ frp }) => frp === isFrp),
      size,
    ),
  );
  const apart = ofSteel !== null && ofFrp !== null && differ(ofSteel!, ofFrp!);
  const z = -normal().quantile(fractile);
  let [value, variance] = [delta.value, delta.variance];
  if (apart) {
    const [s, f] = [Math.exp(ofSteel!.value), Math.exp(ofFrp!.value)];
    value -= z * (f - s);
    variance += z * z * (f * f * ofFrp!.variance + s * s * ofSteel!.variance);
  }
  const half = studentT(Math.max(1, delta.degrees)).quantile(confidence) * Math.sqrt(variance);
  const lower = Math.exp(value - half);
  const counts = [0, 1].map((k) => pairs.reduce((sum, one) => sum + one.failures[k]!, 0));
  return {
    factor: lower,
    estimate: Math.exp(value),
    lower,
    upper: Math.exp(value + half),
    diameter_mm: size === "none" ? null : Math.exp(centreOf(tests)),
    scatter: apart ? [Math.exp(ofSteel!.value), Math.exp(ofFrp!.value)] : null,
    basis: `${counts[1]} failures of FRP and ${counts[0]} of steel in ${pairs.length} ${pairs.length === 1 ? "cell" : "cells"} with both, series effect included${studies ? ", studies with an effect of their own" : ""}${size === "none" ? "" : `, at a diameter of ${Math.exp(centreOf(tests)).toFixed(1)} mm`}`,
  };
}

/** The model with as many slopes as the tests can carry: sizes may coincide with cells. */
function largestModel(
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
  throw new NoMaximumError("The cells leave no scatter between series to be estimated");
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
function centreOf(tests: readonly PairedTest[]): number {
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
function scatterOf(tests: readonly PairedTest[], size: SizeTerms): Estimated | null {
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

function differ(a: Estimated, b: Estimated): boolean {
  const z = Math.abs(a.value - b.value) / Math.sqrt(a.variance + b.variance);
  return 2 * studentT(Math.max(1, Math.min(a.degrees, b.degrees))).upperTail(z) < LEVEL;
}
