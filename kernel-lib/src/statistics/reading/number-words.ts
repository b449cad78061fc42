/** Numbers as they stand in a sentence of an engineer's report. */

/**
 * A number to three (or `digits`) significant figures, without a trailing exponent where it can be
 * read plainly. A number that is missing is said to be so; it is never printed as NaN.
 *
 * @example significant(0.012345) // "0.0123"
 */
export function significant(value: number, digits: number = 3): string {
  if (Number.isNaN(value)) return "not known";
  if (!Number.isFinite(value)) return value > 0 ? "unbounded" : "unbounded below";
  if (value === 0) return "0";
  const size = Math.floor(Math.log10(Math.abs(value)));
  if (size < -4 || size > 6) return value.toExponential(digits - 1).replace("e+", "e");
  return size >= digits ? String(Math.round(value)) : String(Number(value.toPrecision(digits)));
}

/** "p = 0.031", "p < 0.001"; a p-value that does not exist is said to be so. */
export function pWords(p: number | null): string {
  if (p === null || Number.isNaN(p)) return "no p-value";
  if (p < 0.001) return "p < 0.001";
  if (p > 0.999) return "p > 0.999";
  return `p = ${p < 0.1 ? Number(p.toPrecision(2)) : p.toFixed(2)}`;
}

/** "95 % interval 0.81 to 0.97". */
export function intervalWords(lower: number, upper: number, confidence: number): string {
  return `${percent(confidence)} interval ${significant(lower)} to ${significant(upper)}`;
}

/** 0.975 as "97.5 %". */
export function percent(share: number, digits: number = 1): string {
  return `${Number((100 * share).toFixed(digits))} %`;
}

/**
 * A share from 0 to 1 to a fixed number of decimals, such as an intraclass correlation: more digits
 * of a small one would say more than the data do. What would read 0 or 1 is "below 0.01" or "above
 * 0.99".
 * @example shareText(0.0059) // "0.01"; shareText(0.0012) is "below 0.01"
 */
export function shareText(share: number, decimals: number = 2): string {
  if (Number.isNaN(share)) return "not known";
  const [text, step] = [share.toFixed(decimals), 10 ** -decimals];
  if (Number(text) === 0) return `below ${step.toFixed(decimals)}`;
  return Number(text) === 1 && share < 1 ? `above ${(1 - step).toFixed(decimals)}` : text;
}

/** "3 rows", "1 row". */
export function counted(count: number, one: string, many: string = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Names in a sentence: "A", "A and B", "A, B and C". @example listed(["A", "B", "C"]) // "A, B and C" */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} and ${last}`;
}

/** The same words with a capital at their beginning. @example capitalised("bond") // "Bond" */
export function capitalised(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
