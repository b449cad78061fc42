/** Numbers that can be drawn: missing ones (NaN, infinite) are left out. */
export function finite(values: readonly number[]): number[] {
  return values.filter((value) => Number.isFinite(value));
}

/**
 * A number for reading, to some significant digits or as many more as keep it on its own side of 1,
 * since ratios are judged against 1; a true minus sign; an en dash when missing.
 */
export function shown(value: number, digits: number = 3): string {
  if (!Number.isFinite(value)) return "–";
  let n = digits;
  while (n < 17 && Math.sign(Number(value.toPrecision(n)) - 1) !== Math.sign(value - 1)) n += 1;
  return String(Number(value.toPrecision(n))).replace("-", "−");
}

/** The least and largest finite value with a margin, widened so that it takes in `including`. */
export function paddedRange(
  values: readonly number[],
  including: readonly number[] = [],
  margin: number = 0.06,
): [number, number] {
  const all = finite([...values, ...including]);
  if (all.length === 0) return [0, 1];
  const low = all.reduce((a, b) => Math.min(a, b));
  const high = all.reduce((a, b) => Math.max(a, b));
  const span = high - low || Math.abs(high) || 1;
  return [low - margin * span, high + margin * span];
}

/** Ticks 1, 2, 5 × 10^k inside a range of positive numbers. */
export function logTicks(low: number, high: number): number[] {
  const ticks: number[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power += 1) {
    for (const step of [1, 2, 5]) {
      const tick = Number(`${step}e${power}`);
      if (tick >= low * (1 - 1e-12) && tick <= high * (1 + 1e-12)) ticks.push(tick);
    }
  }
  return ticks;
}
