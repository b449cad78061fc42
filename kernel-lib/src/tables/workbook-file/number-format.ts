/**
 * Distances without end, which a spreadsheet cannot hold, are written as a number beyond this one.
 */
const FAR = '[>=1E+100]"far";[<=-1E+100]"-far";';
const MOST_DECIMALS = 9;
/** Digits that a number shows; the cell keeps all of them. */
const SHOWN_DIGITS = 6;

/**
 * Ways in which numbers are shown, in the order of `numberFormat`; as they are, with decimals, with
 * an exponent.
 */
export const NUMBER_FORMATS: readonly string[] = [
  `${FAR}General`,
  ...Array.from(
    { length: MOST_DECIMALS + 1 },
    (_, decimals) => `${FAR}0${decimals === 0 ? "" : `.${"0".repeat(decimals)}`}`,
  ),
  "0.0E+00",
];

/**
 * Index of the way in which a number is shown: as it is when six digits say it, else rounded to six
 * digits, so that columns can be read. What the cell holds is not rounded.
 * @example NUMBER_FORMATS[numberFormat(1087.783)] // shows two decimals
 */
export function numberFormat(value: number): number {
  // Programs show some ten digits of a number as it is, so an error of rounding in the last place
  // is not seen.
  if (
    !Number.isFinite(value) ||
    Number(value.toPrecision(SHOWN_DIGITS)) === Number(value.toPrecision(10))
  )
    return 0;
  const decimals = SHOWN_DIGITS - 1 - Math.floor(Math.log10(Math.abs(value)));
  return decimals > MOST_DECIMALS ? NUMBER_FORMATS.length - 1 : 1 + Math.max(0, decimals);
}
