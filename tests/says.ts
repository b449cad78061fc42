import { expect } from "vitest";

const says = (text: string, part: string | RegExp): boolean => {
  if (part instanceof RegExp) return part.test(text);
  for (let at = text.indexOf(part); at >= 0; at = text.indexOf(part, at + 1)) {
    const [before, after] = [text.slice(0, at), text.slice(at + part.length)];
    const joined = /[\p{L}\p{N}]$|[\p{N}][.,]$/u.test(before) && /^[\p{L}\p{N}]/u.test(part);
    const continued = /^[\p{L}\p{N}]|^[.,]\p{N}/u.test(after) && /[\p{L}\p{N}]$/u.test(part);
    if (!joined && !continued) return true;
  }
  return false;
};
const lacking = (text: string, parts: readonly (string | RegExp)[]): (string | RegExp)[] =>
  parts.filter((part) => !says(text, part));

/**
 * Expects every part in the text, however its sentences are worded and lines broken. A name or a
 * number counts only where it stands alone: 0.6 is not said by 0.67, nor 3 by 1.3.
 */
export function expectSaid(
  text: string | null | undefined,
  ...parts: readonly (string | RegExp)[]
): void {
  const flat = (text ?? "").replace(/\s+/g, " ");
  expect(lacking(flat, parts), flat).toEqual([]);
}

/** Expects one line that says every part. */
export function expectLine(text: string, ...parts: readonly (string | RegExp)[]): void {
  const lines = text.split("\n").map((line) => line.replace(/\s+/g, " "));
  if (!lines.some((line) => lacking(line, parts).length === 0))
    expect.fail(`no line says all of ${parts.map(String).join(" | ")}:\n${text}`);
}

/**
 * Expects the caution, once unless told otherwise: that failures endanger life, and that a licensed
 * engineer is responsible.
 */
export function expectCaution(text: string, times = 1): void {
  const flat = text.replace(/\s+/g, " ");
  expect(flat.match(/licensed engineer/g), flat.slice(-400)).toHaveLength(times);
  expect(flat).toMatch(/\bkill|\binjur|\bdeath|\blife\b|\blives\b/);
}
