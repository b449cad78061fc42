import { didYouMean } from "../dataset";

/**
 * How the bond stress of a confined test compares with that of an unconfined bar, by a named
 * source.
 */
export interface SetupFactor {
  readonly uncracked: number;
  readonly cracked: number;
  readonly source: string;
}

/**
 * Published factors of the test set-up, alpha_setup: unconfined over confined bond stress. None is
 * taken unless asked for.
 *
 * `product_tests` is what the usual product tests stipulate; `study_2020_mean` is what one study of
 * 28 confined and 44 unconfined tests found for average strengths, where the stipulated factor was
 * unsafe. Neither was found with FRP bars.
 */
export const SETUP_FACTORS = {
  product_tests: {
    uncracked: 0.75,
    cracked: 0.7,
    source:
      "alpha_setup of ACI 355.4 and EAD 330499: 0.75 confirmed by https://dc.uwm.edu/cee_facart/17/, 0.70 in cracked concrete from memory",
  },
  study_2020_mean: {
    uncracked: 0.5,
    cracked: 0.5,
    source:
      "mean of confined tests in uncracked concrete, https://dc.uwm.edu/cee_facart/17/; the same value is used for cracked concrete",
  },
} as const satisfies Readonly<Record<string, SetupFactor>>;

export type SetupFactorName = keyof typeof SETUP_FACTORS;

/** A factor of one's own, or one by name. */
export type ConfinedBondFactor = number | SetupFactorName;

/**
 * The factor on the load of a confined test, by whether its concrete was cracked; NaN for a named
 * one where nobody said.
 * @param factor a positive number, or a name of `SETUP_FACTORS`
 * @throws RangeError for a number that is not positive and finite, or a name that is not known
 * @example setupFactor("product_tests")("yes") // 0.7
 */
export function setupFactor(factor: ConfinedBondFactor): (cracked: string | null) => number {
  if (typeof factor === "number") {
    if (!(factor > 0 && factor < Infinity))
      throw new RangeError(
        `confinedBondFactor ${factor} is invalid, expected a positive finite number such as 0.75`,
      );
    return () => factor;
  }
  const names = Object.keys(SETUP_FACTORS);
  if (!Object.hasOwn(SETUP_FACTORS, factor)) {
    throw new RangeError(
      `No set-up factor "${String(factor)}"${didYouMean(factor, names)}; expected a positive number or one of ${names.join(", ")}.`,
    );
  }
  const named: SetupFactor = SETUP_FACTORS[factor];
  return (cracked) =>
    cracked === "yes" ? named.cracked : cracked === "no" ? named.uncracked : NaN;
}
