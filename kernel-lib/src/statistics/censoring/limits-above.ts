/** Steps of a curve of censoring limits, rising in value. */
type LimitSteps = readonly { readonly value: number; readonly survival: number }[];

/**
 * A censoring limit drawn from those above `value`; infinite where the limits' curve never falls to
 * the drawn level.
 */
export function limitAbove(limits: LimitSteps, value: number, u: number): number {
  return limitsAbove(limits, value)(u);
}

/** The same for many draws above one value. */
export function limitsAbove(limits: LimitSteps, value: number): (u: number) => number {
  const above = limits.filter((step) => step.value > value);
  const before = limits[limits.length - above.length - 1]?.survival ?? 1;
  return (u) => {
    for (const step of above) if (step.survival <= u * before) return step.value;
    return Infinity;
  };
}
