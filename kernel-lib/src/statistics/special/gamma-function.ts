const HALF_LOG_TWO_PI = 0.9189385332046727418;

/**
 * Stirling error s(x) = ln Γ(x) − [(x − ½) ln x − x + ½ ln 2π], for x > 0.
 *
 * Kept apart because it is small: densities written with it do not lose digits by
 * subtracting large logarithms (Loader, "Fast and accurate computation of binomial
 * probabilities", 2000). Absolute error below 1e-15.
 */
export function stirlingError(x: number): number {
  let shifted = x;
  let sum = 0;
  // s(x) = s(x + 1) + (x + ½) ln(1 + 1/x) − 1: walk up to where the series is exact.
  while (shifted < 15) {
    sum += (shifted + 0.5) * Math.log1p(1 / shifted) - 1;
    shifted += 1;
  }
  const r = 1 / (shifted * shifted);
  const series =
    (1 / 12 -
      r *
        (1 / 360 -
          r * (1 / 1260 - r * (1 / 1680 - r * (1 / 1188 - r * (691 / 360360 - r / 156)))))) /
    shifted;
  return sum + series;
}

/**
 * ln Γ(x) for x > 0. Relative error below 1e-14 away from the zeros at x = 1 and x = 2,
 * absolute error below 1e-14 near them.
 */
export function logGamma(x: number): number {
  if (Number.isNaN(x)) return NaN;
  if (!(x > 0)) throw new RangeError(`logGamma: x is ${x}, expected a positive number`);
  if (x < 15) {
    // Γ(x) = Γ(x + m) / [x (x + 1) … (x + m − 1)]; the product stays far from overflow.
    let product = 1;
    let shifted = x;
    while (shifted < 15) {
      product *= shifted;
      shifted += 1;
    }
    return (
      (shifted - 0.5) * Math.log(shifted) -
      shifted +
      HALF_LOG_TWO_PI +
      stirlingError(shifted) -
      Math.log(product)
    );
  }
  return (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI + stirlingError(x);
}

/** ln B(a, b) = ln Γ(a) + ln Γ(b) − ln Γ(a + b), for a, b > 0. */
export function logBeta(a: number, b: number): number {
  const n = a + b;
  // Written with Stirling errors so that large a, b do not cancel.
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  return (
    HALF_LOG_TWO_PI -
    0.5 * Math.log(large) +
    (small - 0.5) * Math.log(small / n) +
    large * Math.log1p(-small / n) +
    stirlingError(a) +
    stirlingError(b) -
    stirlingError(n)
  );
}

/**
 * Deviance term D(x, m) = x ln(x/m) + m − x, without cancellation when x is near m (Loader 2000).
 */
export function devianceTerm(x: number, m: number): number {
  if (x === 0) return m;
  const difference = x - m;
  if (Math.abs(difference) < 0.1 * (x + m)) {
    const v = difference / (x + m);
    let sum = difference * v;
    let term = 2 * x * v;
    const v2 = v * v;
    for (let j = 1; j < 60; j++) {
      term *= v2;
      const next = sum + term / (2 * j + 1);
      if (next === sum) return next;
      sum = next;
    }
    return sum;
  }
  return x * Math.log(x / m) + m - x;
}
