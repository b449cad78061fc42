/** A value normalised to a reference, with both given so that neither is lost. */
export interface Normalised {
  readonly value: number;
  readonly normalised: number;
  readonly factor: number;
  readonly exponent: number;
  readonly reference: number;
}

/**
 * Exponents on concrete strength by mode: 0.5 for concrete breakout (ACI 355.4 way), 0.5 for edge
 * breakout and pryout, 0 for bar modes. Bond has none: it must be given or fitted (often 0 to 0.5).
 */
export const CONCRETE_STRENGTH_EXPONENTS: Readonly<Record<string, number>> = {
  concrete_breakout: 0.5,
  concrete_edge_breakout: 0.5,
  pryout: 0.5,
  bar_rupture: 0,
  rupture_at_grip: 0,
  bar_shear: 0,
};

/**
 * Normalises a load or stress to a reference strength: value x (reference / strength)^exponent.
 * @param value load or stress, any unit; @param strength measured strength and @param reference in
 *   MPa; @param exponent usually 0 to 0.7
 * @throws RangeError for strengths that are not above 0
 * @example normaliseToStrength(50, 40, 20.7, 0.5).normalised // 35.97
 */
export function normaliseToStrength(
  value: number,
  strength: number,
  reference: number,
  exponent: number,
): Normalised {
  if (!(strength > 0) || !(reference > 0))
    throw new RangeError(
      `strength ${String(strength)} and reference ${String(reference)} MPa: expected both above 0`,
    );
  if (!Number.isFinite(exponent))
    throw new RangeError(`exponent ${String(exponent)}: expected a finite number`);
  const factor = (reference / strength) ** exponent;
  return { value, normalised: value * factor, factor, exponent, reference };
}

/** An exponent found from tests, with its standard error. */
export interface FittedExponent {
  readonly exponent: number;
  readonly standardError: number;
  readonly n: number;
}

/**
 * The exponent m of load ~ strength^m by least squares of ln load on ln strength; with `groups`,
 * one level for each group and a common exponent, so that bars, embedments and laboratories need
 * not be alike.
 * @param groups name of the group of each test, such as the series' bar and embedment; without it
 *   all tests are one group
 * @throws RangeError for fewer than 2 tests more than groups, or strengths that do not vary within
 *   any group
 */
export function fitStrengthExponent(
  loads: ArrayLike<number>,
  strengths: ArrayLike<number>,
  groups: ArrayLike<string> | null = null,
): FittedExponent {
  const x = Array.from(strengths, Math.log);
  const y = Array.from(loads, Math.log);
  const n = x.length;
  const members = new Map<string, number[]>();
  for (let i = 0; i < n; i += 1)
    members.set(groups?.[i] ?? "", [...(members.get(groups?.[i] ?? "") ?? []), i]);
  const degrees = n - members.size - 1;
  if (degrees < 1 || y.length !== n)
    throw new RangeError(
      `a strength exponent needs 2 tests more than groups with as many strengths (3 tests or more of one group): got ${String(y.length)} loads and ${String(n)} strengths in ${String(members.size)} groups`,
    );
  if (![...x, ...y].every(Number.isFinite))
    throw new RangeError(
      "a strength exponent needs loads and strengths above 0: got one that is not",
    );
  const [u, v] = [new Float64Array(n), new Float64Array(n)];
  for (const rows of members.values()) {
    const mean = (values: ReadonlyArray<number>): number =>
      rows.reduce((sum, i) => sum + (values[i] ?? NaN), 0) / rows.length;
    const [mx, my] = [mean(x), mean(y)];
    for (const i of rows) [u[i], v[i]] = [(x[i] ?? NaN) - mx, (y[i] ?? NaN) - my];
  }
  const suu = u.reduce((sum, one) => sum + one * one, 0);
  if (!(suu > 1e-12))
    throw new RangeError(
      "the strengths do not vary within any group: expected at least two different ones",
    );
  const exponent = u.reduce((sum, one, i) => sum + one * (v[i] ?? NaN), 0) / suu;
  const residual = u.reduce((sum, one, i) => sum + ((v[i] ?? NaN) - exponent * one) ** 2, 0);
  return { exponent, standardError: Math.sqrt(residual / degrees / suu), n };
}
