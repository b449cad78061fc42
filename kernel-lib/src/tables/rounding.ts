const mostDigits = 17;

/**
 * Rounds a number to significant digits for reading, with as many more digits as it takes to keep
 * it strictly on its own side of a limit: 0.9996 at three digits and limit 1 stays "0.9996", not
 * "1.00".
 *
 * @param value  a finite number
 * @param digits significant digits, 1 to 17
 * @param limit  number that a verdict depends on, or null
 * @returns plain decimal notation from 1e-4 to 1e9 in size, else "m × 10ⁿ"; a true minus sign
 */
export function roundedText(value: number, digits: number, limit: number | null = null): string {
  if (!Number.isFinite(value))
    throw new RangeError(`Cannot round ${value}. Expected a finite number.`);
  if (!Number.isInteger(digits) || digits < 1 || digits > mostDigits) {
    throw new RangeError(
      `The number of significant digits is ${digits}. Expected a whole number from 1 to ${mostDigits}.`,
    );
  }
  return write(value, digitsThatKeepTheSide(value, digits, limit));
}

function digitsThatKeepTheSide(value: number, digits: number, limit: number | null): number {
  if (limit === null) return digits;
  for (let n = digits; n < mostDigits; n += 1) {
    if (Math.sign(Number(value.toPrecision(n)) - limit) === Math.sign(value - limit)) return n;
  }
  return mostDigits;
}

function write(value: number, digits: number): string {
  if (value === 0) return "0";
  const [mantissa = "", exponentText = "0"] = value.toExponential(digits - 1).split("e");
  const exponent = Number(exponentText);
  if (exponent < -4 || exponent >= 9) return signed(`${mantissa} × 10${superscript(exponent)}`);
  // toFixed with no negative count would keep digits that are not significant: 1234 at 3 digits is
  // 1230.
  const decimals = digits - 1 - exponent;
  return signed(
    decimals >= 0 ? value.toFixed(decimals) : String(Number(value.toPrecision(digits))),
  );
}

function signed(text: string): string {
  return text.replace(/^-/, "−");
}

function superscript(exponent: number): string {
  const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  return [...String(exponent)].map((c) => (c === "-" ? "⁻" : raised[Number(c)])).join("");
}

/** A whole number in full, with a true minus sign. */
export function wholeText(value: number): string {
  return signed(String(value));
}
