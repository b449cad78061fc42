import type { FailureMode, TestRowInput } from "../dataset";
import type { Random } from "../statistics/random";
import type { PlannedSeries } from "./campaign";
import { TRUTH } from "./truth";
import { LABORATORIES } from "./laboratories";
import { specimenOf } from "./planned-specimen";
import { competingModes, isBarMode } from "./competing-modes";
import { rowOf } from "./test-row";

/** A log-normal factor with mean 1 and the given coefficient of variation. */
function scatter(random: Random, cov: number): number {
  const variance = Math.log1p(cov * cov);
  return Math.exp(Math.sqrt(variance) * random.normal() - variance / 2);
}

/**
 * The tests of one planned series in one laboratory: the least of the scattered capacities of each
 * mode.
 */
export function testsOfSeries(
  series: PlannedSeries,
  index: number,
  laboratory: 0 | 1,
  factors: readonly [number, number],
  random: Random,
): TestRowInput[] {
  const { study_id, short } = LABORATORIES[laboratory];
  const concrete =
    Math.round(
      10 * (22 + (series.weakConcrete ? 6 : 38) * random.fork("concrete").uniform() ** 1.3),
    ) / 10;
  const specimen = specimenOf(series, concrete);
  const modes = [...competingModes(series, specimen)].map(([mode, mean]) => {
    const ofSeries = isBarMode(mode)
      ? 1
      : factors[laboratory] * scatter(random.fork(`series factor ${mode}`), TRUTH.betweenSeriesCov);
    return { mode, mean: mean * ofSeries, draws: random.fork(mode) };
  });
  const replicates = [3, 3, 4, 4, 5, 5, 6, 6, 8, 10][random.fork("number").integer(10)] ?? 5;
  const series_id = `${short}-${String(index + 1).padStart(3, "0")}`;
  const slips = random.fork("slip");
  return Array.from({ length: replicates }, (_, i): TestRowInput => {
    let load = TRUTH.jackCapacity_kN * 1000;
    let failure: FailureMode = "stopped";
    for (const { mode, mean, draws } of modes) {
      const cov =
        specimen.kind.material === "steel" && isBarMode(mode) ? 0.02 : TRUTH.withinSeriesCov[mode];
      const capacity = mean * scatter(draws, cov);
      if (capacity < load) [load, failure] = [capacity, mode];
    }
    const slip =
      series.setup === "direct_shear"
        ? null
        : Math.round(100 * 1.1 * Math.sqrt(specimen.diameter / 16) * scatter(slips, 0.2)) / 100;
    return rowOf(series, specimen, {
      test_id: `${series_id}-${String(i + 1)}`,
      study_id,
      series_id,
      load,
      failure,
      slip,
    });
  });
}
