/** One assumption's share of a ratio, as a factor. */
export interface FactorShare {
  /**
   * Geometric mean of the assumption's factor over every order in which the assumptions can be
   * changed.
   */
  readonly factor: number;
  /** The factor with this assumption changed before all others. */
  readonly first: number;
  /** The factor with this assumption changed after all others. */
  readonly last: number;
}

/**
 * Splits a ratio into one factor for each assumption: R = value(all changed) / value(none changed)
 * = product of the factors. One assumption at a time is changed; its factor depends on what was
 * changed before it, so the factor given is the geometric mean over all orders, ln f_i = sum over S
 * without i of |S|! (n - |S| - 1)! / n! [ln value(S + i) - ln value(S)] (the Shapley value of the
 * logarithms, L. S. Shapley 1953, from memory). Evaluates all 2^n sets.
 * @param value a positive number for each set of changed assumptions, true where changed
 * @throws RangeError for a value that is not a positive number
 * @example factorShares(2, ([a, b]) => (a ? 2 : 1) * (b ? 3 : 1)) // factors 2 and 3
 */
export function factorShares(
  n: number,
  value: (changed: readonly boolean[]) => number,
): FactorShare[] {
  const sets = Array.from({ length: 2 ** n }, (_, mask) => {
    const found = value(Array.from({ length: n }, (__, i) => (mask & (1 << i)) !== 0));
    if (!(found > 0 && Number.isFinite(found)))
      throw new RangeError(
        `factorShares: a value of ${found}, expected a positive number for every set of assumptions`,
      );
    return found;
  });
  const at = (mask: number): number => sets[mask] ?? NaN;
  return Array.from({ length: n }, (_, i) => {
    const bit = 1 << i;
    let logarithm = 0;
    for (let mask = 0; mask < sets.length; mask++) {
      if ((mask & bit) === 0)
        logarithm += weight(n, ones(mask)) * Math.log(at(mask | bit) / at(mask));
    }
    return {
      factor: Math.exp(logarithm),
      first: at(bit) / at(0),
      last: at(sets.length - 1) / at((sets.length - 1) ^ bit),
    };
  });
}

/**
 * Share of the orders in which exactly a given set of `size` assumptions is changed before one
 * more.
 */
function weight(n: number, size: number): number {
  let orders = n;
  for (let k = 1; k <= size; k++) orders *= (n - k) / k;
  return 1 / orders;
}

function ones(mask: number): number {
  return mask === 0 ? 0 : (mask & 1) + ones(mask >> 1);
}
