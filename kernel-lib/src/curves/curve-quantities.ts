/** Index of the first largest value. */
export function indexOfMaximum(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i += 1)
    if ((values[i] ?? NaN) > (values[best] ?? NaN)) best = i;
  return best;
}

/** By how much the slip falls at most below what it had reached, mm. */
export function largestStepBack(slips: Float64Array): number {
  let furthest = 0;
  let back = 0;
  for (const slip of slips) {
    furthest = Math.max(furthest, slip);
    back = Math.max(back, furthest - slip);
  }
  return back;
}

function slipAtLoad(slips: Float64Array, loads: Float64Array, wanted: number): number {
  const at = loads.findIndex((value) => value >= wanted);
  if (at < 1) return NaN;
  const [s0, s1, n0, n1] = [
    slips[at - 1] ?? NaN,
    slips[at] ?? NaN,
    loads[at - 1] ?? NaN,
    loads[at] ?? NaN,
  ];
  return s0 + ((wanted - n0) / (n1 - n0)) * (s1 - s0);
}

/** Secant stiffness between two shares of the peak, kN/mm. */
export function secant(
  slips: Float64Array,
  loads: Float64Array,
  peak: number,
  from: number,
  to: number,
): number {
  return (
    ((to - from) * peak) /
    (slipAtLoad(slips, loads, to * peak) - slipAtLoad(slips, loads, from * peak))
  );
}

/** Energy up to a reading by the trapezoidal rule, kN mm. */
export function area(slips: Float64Array, loads: Float64Array, end: number): number {
  let sum = 0;
  for (let i = 1; i <= end; i += 1)
    sum +=
      0.5 *
      ((loads[i] ?? NaN) + (loads[i - 1] ?? NaN)) *
      ((slips[i] ?? NaN) - (slips[i - 1] ?? NaN));
  return sum;
}

/** Mean load where the slip is at least `from`, kN. */
export function meanFrom(slips: Float64Array, loads: Float64Array, from: number): number {
  const tail = loads.filter((_, i) => (slips[i] ?? NaN) >= from);
  return tail.reduce((a, b) => a + b, 0) / tail.length;
}
