/**
 * Rounds a factor on a resistance down to a step a code could print (0.05 by default): never to the
 * unsafe side.
 * @throws Error for a step that is not above zero
 * @example roundToSafeSide(0.8431) // 0.80
 */
export function roundToSafeSide(factor: number, step: number = 0.05): number {
  if (!(step > 0))
    throw new Error(`Rounding step ${step} is invalid; expected a number above 0, such as 0.05.`);
  const steps = Math.floor(factor / step + 1e-9);
  // Dividing by the whole number 1/step gives the nearest printed decimal where 0.05 x 17 would
  // not.
  const perUnit = Math.round(1 / step);
  const rounded = Math.abs(perUnit * step - 1) < 1e-9 ? steps / perUnit : steps * step;
  return rounded > factor ? (steps - 1) * step : rounded;
}
