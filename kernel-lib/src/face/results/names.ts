import { didYouMean } from "../../dataset";

/**
 * A name that nothing here has: a code, column, mode, view or group. The nearest match is in the
 * message.
 * @example
 * try {
 *   study.compare("aci318-91");
 * } catch (error) {
 *   show(String(error instanceof UnknownNameError));
 * }
 */
export class UnknownNameError extends Error {
  constructor(
    kind: string,
    readonly given: string,
    readonly known: readonly string[],
  ) {
    const some = known.length > 40 ? [...known.slice(0, 40), "…"] : known;
    super(`No ${kind} "${given}"${didYouMean(given, known)}. Expected one of ${some.join(", ")}.`);
    this.name = "UnknownNameError";
  }
}

/** The name where it is known. @throws UnknownNameError naming the nearest match */
export function knownName<T extends string>(kind: string, given: string, known: readonly T[]): T {
  const found = known.find((name) => name === given);
  if (found === undefined) throw new UnknownNameError(kind, given, known);
  return found;
}

/**
 * A file name from words: lower-case letters, digits and hyphens, at most 60 characters.
 * @example fileName("Ratios by mode", "aci318-19") // "ratios-by-mode-aci318-19"
 */
export function fileName(...words: readonly string[]): string {
  const plain = words
    .join(" ")
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-");
  return (
    plain
      .replace(/^-+|-+$/g, "")
      .slice(0, 60)
      .replace(/-+$/, "") || "result"
  );
}

/** The file name of one view of a result: the view is never cut off. */
export function viewName(result: string, view: string): string {
  return fileName(result.slice(0, Math.max(1, 59 - fileName(view).length)), view);
}

/** As `counted` of the statistics, with separators of thousands. @example count(1, "test") // "1 test" */
export function count(n: number, one: string, many: string = `${one}s`): string {
  return `${n.toLocaleString("en-US")} ${n === 1 ? one : many}`;
}
