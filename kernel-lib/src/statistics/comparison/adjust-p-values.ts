/** How p-values of several comparisons are adjusted. */
export type Adjustment = "holm" | "benjamini-hochberg";

/**
 * p-values adjusted for the number of comparisons, in the order given.
 *
 * Holm (1979) keeps the chance of any false finding at the level; Benjamini–Hochberg (1995) keeps
 * the expected share of false findings among the findings. Missing p-values (NaN) stay missing and
 * are not counted.
 * @throws RangeError for a p-value outside 0…1
 * @example adjustPValues([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 */
export function adjustPValues(p: readonly number[], adjustment: Adjustment = "holm"): number[] {
  const known = p
    .map((value, index) => ({ value, index }))
    .filter(({ value }) => !Number.isNaN(value));
  for (const { value, index } of known) {
    if (!(value >= 0 && value <= 1))
      throw new RangeError(
        `adjustPValues: p-value ${index} is ${value}, expected a number from 0 to 1`,
      );
  }
  const count = known.length;
  const adjusted = p.map(() => NaN);
  if (adjustment === "holm") {
    let worst = 0;
    known
      .sort((a, b) => a.value - b.value)
      .forEach(({ value, index }, rank) => {
        worst = Math.max(worst, Math.min(1, (count - rank) * value));
        adjusted[index] = worst;
      });
  } else {
    let best = 1;
    known
      .sort((a, b) => b.value - a.value)
      .forEach(({ value, index }, rank) => {
        best = Math.min(best, (count / (count - rank)) * value);
        adjusted[index] = best;
      });
  }
  return adjusted;
}
