import type { GroupTest } from "../../kernel-lib/src/comparison";
import { boundsAsTested } from "../../kernel-lib/src/comparison/judging/as-tested";
import { boundsInGeneral } from "../../kernel-lib/src/comparison/judging/in-general";
import { TRUTH } from "../../kernel-lib/src/demonstration";
import { normal } from "../../kernel-lib/src/statistics";
import type { StudiedGroup, StudiedMode } from "./recovered-bias";

export interface RecoveredFactor {
  readonly mode: StudiedMode;
  readonly factor: number;
  /**
   * The true 5 % fractile of the ratio of a further test: by any laboratory, and by one of those
   * that tested.
   */ readonly any: number;
  readonly these: number;
  readonly n: number;
  readonly series: number;
}

/** Whether the series effect is ignored or included. */
export type FactorWay = "as tested" | "in general";

const QUESTION = { fractile: 0.05, confidence: 0.9, distribution: "lognormal", target: 1 } as const;

/**
 * ln(ratio) of a further test is normal: the scatter within a series and between series, both drawn
 * with a mean of 1, and the laboratory's factor: any laboratory's, or that of one of the two that
 * tested (f and 1/f alike often).
 */
function trueFractiles({ mode, truth, laboratory }: StudiedGroup): { any: number; these: number } {
  const [within, between, study] = [
    TRUTH.withinSeriesCov[mode],
    TRUTH.betweenSeriesCov,
    TRUTH.studyCov,
  ].map((cov) => Math.log1p(cov * cov)) as [number, number, number];
  const law = normal();
  const [centre, sd] = [Math.log(truth) - (within + between) / 2, Math.sqrt(within + between)];
  // ½ Φ((q − a)/s) + ½ Φ((q + a)/s) = 0.05 by halving.
  let [low, high] = [-10 * sd, 0];
  for (let k = 0; k < 60; k++) {
    const q = (low + high) / 2;
    if (0.5 * (law.cdf((q - laboratory) / sd) + law.cdf((q + laboratory) / sd)) < 0.05) low = q;
    else high = q;
  }
  return {
    any: Math.exp(centre + law.quantile(0.05) * Math.sqrt(within + between + study)),
    these: Math.exp(centre + low),
  };
}

/**
 * The characteristic ratio of each group as a verdict has it (lognormal): as tested, or in general
 * in one cell, beside the fractiles it must not exceed.
 */
export function recoveredFactors(
  groups: readonly StudiedGroup[],
  by: FactorWay,
): RecoveredFactor[] {
  return groups.flatMap((group) => {
    const { ratios, mode } = group;
    const tests = ratios.map(({ value, bound, series, study }, row): GroupTest => ({
      ratio: value,
      lowerBound: bound,
      series,
      study,
      row,
    }));
    const factor = by === "as tested" ? asTested(tests) : inGeneral(tests);
    const failed = tests.filter(({ lowerBound }) => !lowerBound);
    return factor === null
      ? []
      : [
          {
            mode,
            factor,
            ...trueFractiles(group),
            n: failed.length,
            series: new Set(failed.map(({ series }) => series)).size,
          },
        ];
  });
}

function asTested(tests: readonly GroupTest[]): number | null {
  const found = boundsAsTested(tests, QUESTION);
  return "refusal" in found ? null : found.lower;
}

function inGeneral(tests: readonly GroupTest[]): number | null {
  const found = boundsInGeneral(tests, { columns: [], cellOf: tests.map(() => "") }, QUESTION);
  return typeof found === "string" ? null : found.cells[0]!.lower;
}
