/**
 * A number of a hand calculation with six significant digits and no needless zeros; a missing or
 * unlimited one as a word.
 * @example writtenNumber(9510.28374) // "9510.28"
 */
export function writtenNumber(value: number): string {
  if (Number.isNaN(value)) return "missing";
  if (!Number.isFinite(value)) return value > 0 ? "∞" : "−∞";
  const size = Math.abs(value);
  if (size !== 0 && (size < 1e-4 || size >= 1e12))
    return value
      .toExponential(5)
      .replace(/\.?0+e/, "e")
      .replace("e+", "e");
  const rounded = Number(value.toPrecision(6));
  return String(rounded);
}

/** A value with its unit, and with the library's own unit in brackets where that is another. */
export function writtenValue(value: number, unit: string, valueSi: number, unitSi: string): string {
  if (Number.isNaN(value)) return writtenNumber(value);
  const own = `${writtenNumber(value)}${unit === "" ? "" : ` ${unit}`}`;
  return unit === unitSi || !Number.isFinite(value)
    ? own
    : `${own} (${writtenNumber(valueSi)} ${unitSi})`;
}
