/**
 * What a root search needs at one point: the value of an increasing function and its slope there.
 */
export interface ValueAndSlope {
  value: number;
  slope: number;
}

/**
 * Root of an increasing function by Newton steps kept inside a shrinking bracket.
 *
 * A step that would leave the bracket is replaced by bisection (geometric when both ends are
 * positive and far apart, so quantiles of any size are reached quickly). Ends may be infinite.
 */
export function increasingRoot(
  at: (x: number) => ValueAndSlope,
  start: number,
  from: number,
  to: number,
  relativeTolerance: number = 4e-16,
): number {
  let low = from;
  let high = to;
  let x = start > low && start < high ? start : between(low, high, start);
  let lastStep = Infinity;
  for (let i = 0; i < 400; i++) {
    const { value, slope } = at(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;
    let next = x - value / slope;
    // A step below rounding is the answer; it may equal an end of the bracket, so ask before
    // looking at that.
    if (Math.abs(next - x) <= relativeTolerance * Math.abs(next)) return next;
    if (!(next > low && next < high)) next = between(low, high, x);
    const step = Math.abs(next - x);
    if (step <= relativeTolerance * Math.abs(next) || next === low || next === high) return next;
    // Rounding noise: steps no longer shrink although they are already tiny.
    if (step >= lastStep && step < 1e-13 * Math.abs(next)) return next;
    lastStep = step;
    x = next;
  }
  return x;
}

function between(low: number, high: number, current: number): number {
  if (low === -Infinity && high === Infinity) return 0;
  if (low === -Infinity) return Math.min(high - 1, high - 2 * Math.abs(high - current) - 1);
  if (high === Infinity) return low > 0 ? low * 4 : Math.max(low + 1, current * 2 + 1);
  if (low >= 0 && high > 4 * low) return Math.sqrt(Math.max(low, 1e-290 * high, 5e-324) * high);
  return low + 0.5 * (high - low);
}
