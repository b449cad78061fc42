import type { LocationScaleLaw } from "./location-scale-law";

/** A sample apart in failures, whose mean is 0, and lower bounds. */
export interface CentredSample {
  readonly failed: readonly number[];
  readonly lowerBounds: readonly number[];
}

/**
 * ln L of a censored sample at (g, tau), tau = 1/sigma and g = location/sigma; fills `into` with
 * the slopes in g and tau and with minus the second derivatives gg, gt and tt.
 */
export type SampleLikelihood = (g: number, tau: number, into: Float64Array) => number;

/**
 * The likelihood of a sample whose failures have mean 0. For a normal law the failures enter by
 * their number m and their sum of squares Q alone, sum ln f = -(tau^2 Q + m g^2)/2 - m ln sqrt(2
 * pi), so that only lower bounds are gone through; a bootstrap asks some ten thousand times.
 */
export function sampleLikelihood(
  { failed, lowerBounds }: CentredSample,
  law: LocationScaleLaw,
): SampleLikelihood {
  const m = failed.length;
  const ofFailures =
    law.densityOfSums === undefined
      ? oneByOne(failed, law.density)
      : law.densityOfSums(m, sumOfSquares(failed));
  const ofBounds = oneByOne(lowerBounds, law.survival);
  return (g, tau, into) => {
    into.fill(0);
    const value = ofFailures(g, tau, into) + ofBounds(g, tau, into) + m * Math.log(tau);
    into[1] = into[1]! + m / tau;
    into[4] = into[4]! + m / (tau * tau);
    return value;
  };
}

function sumOfSquares(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}

/** The sum over values of a function of z = tau y - g, given with its first two derivatives. */
function oneByOne(values: readonly number[], logOf: LocationScaleLaw["density"]): SampleLikelihood {
  const out = new Float64Array(3);
  return (g, tau, into) => {
    let value = 0;
    let [ofG, ofTau, gg, gt, tt] = [0, 0, 0, 0, 0];
    for (let i = 0; i < values.length; i += 1) {
      const y = values[i]!;
      logOf(tau * y - g, out);
      const first = out[1]!;
      const second = out[2]!;
      value += out[0]!;
      ofG -= first;
      ofTau += first * y;
      gg -= second;
      gt += second * y;
      tt -= second * y * y;
    }
    into[0] = into[0]! + ofG;
    into[1] = into[1]! + ofTau;
    into[2] = into[2]! + gg;
    into[3] = into[3]! + gt;
    into[4] = into[4]! + tt;
    return value;
  };
}
