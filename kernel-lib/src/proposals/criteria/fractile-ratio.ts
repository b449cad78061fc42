import { normal, studentT, type Estimated } from "../../statistics";
import { remembered } from "../../comparison/judging/remembered";
import type { PairedTest, SteelPairs } from "./steel-pairs";
import type { AsSteel, SteelQuestion } from "./steel-question";
import { largestModel, scatterOf, centreOf } from "./steel-model";

/** Significance level at which the scatter of steel and of FRP counts as different. */
const LEVEL = 0.05;

type Ratio = Omit<AsSteel, "pairs" | "columns" | "unpaired" | "criterion">;

/** Ratio of the fractiles of FRP and steel with its one-sided bounds. */
export function ratioOfFractiles(
  { tests, pairs }: SteelPairs,
  { fractile, confidence, studyEffects = true }: SteelQuestion,
): Ratio {
  return computedRatio(tests, pairs, fractile, confidence, studyEffects);
}

const computedRatio = remembered(function (
  tests: readonly PairedTest[],
  pairs: SteelPairs["pairs"],
  fractile: number,
  confidence: number,
  studyEffects: boolean,
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
    basis: `${counts[1]} failures of FRP and ${counts[0]} of steel in ${pairs.length} ${pairs.length === 1 ? "cell" : "cells"} with both, series effect included${studies ? ", with a study effect" : ""}${size === "none" ? "" : `, at a diameter of ${Math.exp(centreOf(tests)).toFixed(1)} mm`}`,
  };
});

function differ(a: Estimated, b: Estimated): boolean {
  const z = Math.abs(a.value - b.value) / Math.sqrt(a.variance + b.variance);
  return 2 * studentT(Math.max(1, Math.min(a.degrees, b.degrees))).upperTail(z) < LEVEL;
}
