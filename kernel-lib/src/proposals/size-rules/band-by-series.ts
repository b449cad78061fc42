import { mixedModel, RegressionError } from "../../regression";
import { FEWEST_SERIES, lineBySeries } from "../../statistics";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import {
  censoredBand,
  type BandAlong,
  type CensoredBandInput,
  type RatiosAlong,
} from "./censored-band";
import { exactBand } from "./exact-band";
import { loweredBySeries } from "./lowered-by-series";

/**
 * Band along a variable, series effect included. Without lower bounds that of `lineBySeries`, the
 * exponent with the interval of a mixed model with a random shift of each series; with them the
 * band of `censoredBand`, lowered by what the series effect takes (`loweredBySeries`), and the
 * exponent with standard errors by series.
 * @returns the band, or why there is none
 */
export function bandBySeries(
  input: CensoredBandInput & { readonly series: readonly string[] },
): BandAlong | string {
  const { lowerBounds, series } = input;
  const nameless = series.filter((name) => name === "").length;
  if (nameless > 0) return `${nameless} of ${series.length} tests have no series`;
  const failed = new Set(series.filter((_, i) => !lowerBounds[i])).size;
  if (failed < FEWEST_SERIES)
    return `fewer than ${FEWEST_SERIES} series failed in the mode, so that between-series variance cannot be estimated`;
  return lowerBounds.includes(true) ? withBounds(input) : withoutBounds(input);
}

function withoutBounds(
  input: RatiosAlong & { readonly series: readonly string[] },
): BandAlong | string {
  const { ratios, x, series, grid, fractile, confidence } = input;
  // With one test a series, series and tests are the same.
  if (new Set(series).size === series.length) return exactBand(input);
  const [y, logs] = [ratios.map(Math.log), x.map(Math.log)];
  return orWords(() => ({
    exponent: mixedModel({ y, columns: { x: logs }, studies: series }).coefficient("x"),
    band: lineBySeries({ y, x: logs, series, grid: grid.map(Math.log), fractile, confidence }),
  }));
}

/** The band, or in words why a fit does not exist. */
function orWords(band: () => BandAlong | string): BandAlong | string {
  try {
    return band();
  } catch (error) {
    if (error instanceof RegressionError || error instanceof NoMaximumError) return error.message;
    throw error;
  }
}

function withBounds(
  input: CensoredBandInput & { readonly series: readonly string[] },
): BandAlong | string {
  const found = orWords(() => censoredBand(input));
  if (typeof found === "string") return found;
  const lowered = loweredBySeries({ ...input, exponent: found.exponent.estimate });
  return typeof lowered === "string"
    ? lowered
    : { ...found, band: found.band.map((value, k) => value - (lowered[k] ?? NaN)) };
}
