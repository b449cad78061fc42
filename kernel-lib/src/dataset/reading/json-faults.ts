import { shortened } from "../diagnostics";

/** Where a text stops being JSON, as people look for it. */
export function jsonFault(text: string, error: unknown): string {
  const lines = text.trim().split(/\r?\n/);
  if (lines.length > 1 && lines.slice(0, 2).every(isWhole))
    return "holds one record a line, which is no JSON as a whole: put the lines between [ and ], with commas between them";
  const message = error instanceof Error ? error.message : "";
  const at = Number(/position (\d+)/.exec(message)?.[1] ?? NaN);
  const before = text.slice(0, at).split("\n");
  if (!Number.isNaN(at))
    return `is not valid JSON (line ${String(before.length)}, character ${String((before.at(-1) ?? "").length + 1)}, at ${JSON.stringify(text.slice(at, at + 12))})`;
  const [, token = "", near = ""] =
    /^Unexpected token '?(.+?)'?, (.*) is not valid JSON$/s.exec(message) ?? [];
  return `is not valid JSON (${token === "" ? "it ends too early" : `there is an unexpected ${shortened(token)} near ${shortened(near)}`})`;
}

function isWhole(line: string): boolean {
  try {
    JSON.parse(line);
    return true;
  } catch {
    return false;
  }
}

/**
 * Names that an object of a valid JSON text gives more than once: of their values the last would
 * count in silence.
 * @returns each name once, with the line on which it comes again
 */
export function repeatedNames(
  text: string,
): ReadonlyArray<{ readonly name: string; readonly line: number }> {
  const found = new Map<string, number>();
  const open: Array<Set<string> | null> = [];
  // Strings whole, with the colon that makes a name of one; brackets; all else is passed over.
  for (const { 0: token, index } of text.matchAll(/"(?:[^"\\]|\\.)*"(?:\s*:)?|[{}[\]]/gs)) {
    if (token === "{" || token === "[") open.push(token === "{" ? new Set() : null);
    else if (token === "}" || token === "]") open.pop();
    else if (token.endsWith(":")) {
      const name = JSON.parse(token.slice(0, token.lastIndexOf('"') + 1)) as string;
      const names = open.at(-1);
      if (names?.has(name) === true && !found.has(name))
        found.set(name, text.slice(0, index).split("\n").length);
      names?.add(name);
    }
  }
  return [...found].map(([name, line]) => ({ name, line }));
}
