/**
 * Sideways offsets (in units of `step`) that keep equal and nearly equal values of a strip apart:
 * each value, in ascending order, takes the free place nearest the middle line. The same values
 * always give the same picture.
 *
 * @param values values along the strip
 * @param apart  distance along the strip from which two marks no longer touch
 */
export function stripOffsets(values: readonly number[], apart: number): number[] {
  const order = values
    .map((_, i) => i)
    .sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0) || a - b);
  const lastInLane = new Map<number, number>();
  const offsets = new Array<number>(values.length).fill(0);
  for (const i of order) {
    const value = values[i] ?? 0;
    let lane = 0;
    while (value - (lastInLane.get(lane) ?? -Infinity) < apart) lane = lane > 0 ? -lane : 1 - lane;
    lastInLane.set(lane, value);
    offsets[i] = lane;
  }
  return offsets;
}
