import type { LocationScaleLaw } from "./location-scale-law";

/** A right-censored sample without covariates; logs already taken where the law is on logs. */
export interface CensoredSample {
  readonly y: Float64Array;
  readonly censored: Uint8Array;
}

/**
 * ln L with tau = 1/sigma and g = location/sigma, and its derivatives along a direction (dg, dtau).
 */
function alongLine(
  sample: CensoredSample,
  law: LocationScaleLaw,
  g: number,
  tau: number,
  dg: number,
  dtau: number,
  out: Float64Array,
): [number, number, number] {
  let value = 0;
  let first = 0;
  let second = 0;
  for (let i = 0; i < sample.y.length; i += 1) {
    const y = sample.y[i]!;
    const slope = dtau * y - dg;
    if (sample.censored[i] === 1) law.survival(tau * y - g, out);
    else {
      law.density(tau * y - g, out);
      value += Math.log(tau);
      first += dtau / tau;
      second -= (dtau / tau) ** 2;
    }
    value += out[0]!;
    first += out[1]! * slope;
    second += out[2]! * slope * slope;
  }
  return [value, first, second];
}

/** Maximum over t of a concave function by safeguarded Newton steps; t stays above `floor`. */
function maximiseConcave(
  at: (t: number) => [number, number, number],
  start: number,
  floor: number,
): { t: number; value: number } {
  let t = start;
  let [value, first, second] = at(t);
  for (let iteration = 0; iteration < 100; iteration += 1) {
    let step = second < 0 ? -first / second : first;
    if (!Number.isFinite(step)) break;
    const gain = first * step;
    let next = value;
    let found = false;
    for (let halving = 0; halving < 60; halving += 1) {
      if (t + step > floor) {
        const trial = at(t + step);
        if (trial[0] >= value - 1e-14 * Math.abs(value)) {
          [next, first, second] = trial;
          found = true;
          break;
        }
      }
      step /= 2;
    }
    if (!found) break;
    t += step;
    value = next;
    if (Math.abs(gain) < 1e-14 * Math.max(1, Math.abs(value))) break;
  }
  return { t, value };
}

/**
 * Profile log-likelihood of the quantile q = location + z sigma: the largest ln L over sigma.
 * With q held, g = q tau - z, so ln L is concave in tau alone.
 */
export function profileOfQuantile(
  sample: CensoredSample,
  law: LocationScaleLaw,
  q: number,
  z: number,
  startSigma: number,
): { value: number; sigma: number } {
  const out = new Float64Array(3);
  const { t, value } = maximiseConcave(
    (tau) => alongLine(sample, law, q * tau - z, tau, q, 1, out),
    1 / startSigma,
    0,
  );
  return { value, sigma: 1 / t };
}

/** Profile log-likelihood of sigma: the largest ln L over the location. */
export function profileOfSigma(
  sample: CensoredSample,
  law: LocationScaleLaw,
  sigma: number,
  startLocation: number,
): { value: number; location: number } {
  const out = new Float64Array(3);
  const tau = 1 / sigma;
  const { t, value } = maximiseConcave(
    (g) => alongLine(sample, law, g, tau, 1, 0, out),
    startLocation * tau,
    -Infinity,
  );
  return { value, location: t / tau };
}

/**
 * Where a profile log-likelihood has fallen by `drop` from its maximum, going from `centre` in
 * steps of `step` (negative steps go down). Infinite when it never falls so far, as it may with too
 * few failures.
 */
export function whereProfileFalls(
  profile: (x: number) => number,
  centre: number,
  step: number,
  target: number,
): number {
  let inside = centre;
  let outside = centre + step;
  let size = step;
  for (let i = 0; profile(outside) > target; i += 1) {
    if (i === 60) return step > 0 ? Infinity : -Infinity;
    inside = outside;
    size *= 1.6;
    outside += size;
  }
  let low = inside;
  let high = outside;
  let fLow = profile(low) - target;
  let fHigh = profile(high) - target;
  let side = 0;
  // Illinois variant of the secant rule: bracketed and fast enough.
  for (
    let i = 0;
    i < 100 &&
    Math.abs(high - low) > 1e-11 * Math.max(Math.abs(low), Math.abs(high), Math.abs(step));
    i += 1
  ) {
    const next = (low * fHigh - high * fLow) / (fHigh - fLow);
    const f = profile(next) - target;
    if (f === 0) return next;
    if (f > 0) {
      low = next;
      fLow = f;
      if (side === 1) fHigh /= 2;
      side = 1;
    } else {
      high = next;
      fHigh = f;
      if (side === -1) fLow /= 2;
      side = -1;
    }
    if (Math.abs(f) < 1e-11) return next;
  }
  return 0.5 * (low + high);
}
