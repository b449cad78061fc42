/**
 * Indices of the readings outside unloading loops: a loop starts when the load falls by `drop`
 * before the peak and ends when it is back.
 */
export function withoutLoops(
  load: Float64Array,
  drop: number,
  peakAt: number,
): { kept: number[]; loops: number } {
  const kept: number[] = [];
  let highest = -Infinity;
  let loops = 0;
  let inside = false;
  for (let i = 0; i < load.length; i += 1) {
    const value = load[i] ?? NaN;
    if (i <= peakAt) {
      if (!inside && value < highest - drop) {
        inside = true;
        loops += 1;
        // The readings between the turning point and here belong to the loop as well.
        while (kept.length > 0 && (load[kept[kept.length - 1] ?? 0] ?? NaN) < highest) kept.pop();
      }
      if (inside && value >= highest) inside = false;
      highest = Math.max(highest, value);
    }
    if (!inside || i > peakAt) kept.push(i);
  }
  return { kept, loops };
}
