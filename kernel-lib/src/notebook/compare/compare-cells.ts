import { wholeText } from "../format";
import type { CellOutput, MimeBundle, MultilineText } from "../format";
import { FIGURE_TYPE, compareFigures } from "./compare-figures";
import { TABLE_TYPE, compareTables } from "./compare-tables";
import { compareText, words } from "./compare-text";
import { compareValues } from "./compare-values";
import { DifferenceList } from "./difference";
import type { Difference } from "./difference";

export type OutputVerdict = "same" | "within_tolerance" | "changed" | "volatile";

export interface OutputComparison {
  readonly verdict: OutputVerdict;
  readonly differences: readonly Difference[];
  /** The largest relative difference among numbers, and where. */
  readonly largest?: { readonly relative: number; readonly where: string };
  /** Volatile rules that accounted for a difference. */
  readonly rules: readonly string[];
}

/** Compares the outputs of a cell with those recorded. */
export function compareOutputs(recorded: readonly CellOutput[], rerun: readonly CellOutput[], tolerance: number): OutputComparison {
  const list = new DifferenceList(tolerance);
  const [before, after] = [mergeStreams(recorded), mergeStreams(rerun)];
  for (let index = 0; index < Math.max(before.length, after.length); index++) {
    const where = Math.max(before.length, after.length) > 1 ? `output ${index + 1}` : "output";
    const [a, b] = [before[index], after[index]];
    if (!a || !b) list.other(where, a ? describe(a) : "(none)", b ? describe(b) : "(none)");
    else compareOutput(where, a, b, list);
  }
  return judge(list);
}

function judge(list: DifferenceList): OutputComparison {
  const changed = list.found.some((difference) => list.isChange(difference));
  const rules = [...new Set(list.found.flatMap(({ rule }) => (rule === undefined ? [] : [rule])))];
  const numeric = list.found.filter((difference) => difference.relative !== undefined);
  const worst = numeric.reduce<Difference | undefined>((most, one) => ((one.relative ?? 0) > (most?.relative ?? -1) ? one : most), undefined);
  const verdict = changed ? "changed" : numeric.length > 0 ? "within_tolerance" : rules.length > 0 ? "volatile" : "same";
  const largest = worst?.relative === undefined ? {} : { largest: { relative: worst.relative, where: worst.where } };
  return { verdict, differences: list.found, rules, ...largest };
}

function compareOutput(where: string, a: CellOutput, b: CellOutput, list: DifferenceList): void {
  if (a.output_type !== b.output_type) {
    list.other(where, describe(a), describe(b));
  } else if (a.output_type === "stream" && b.output_type === "stream") {
    if (a.name !== b.name) list.other(where, describe(a), describe(b));
    else compareText(`${where} (${a.name})`, wholeText(a.text), wholeText(b.text), list);
  } else if (a.output_type === "error" && b.output_type === "error") {
    compareText(`${where} (error)`, `${a.ename}: ${a.evalue}`, `${b.ename}: ${b.evalue}`, list);
  } else if ("data" in a && "data" in b) {
    compareBundles(where, a.data, b.data, list);
  }
}

/**
 * Compares by the representation that holds the numbers. Where a table or a figure stands as
 * data, its text is a rounded copy: only its words are compared, and its drawings not at all.
 */
function compareBundles(where: string, a: MimeBundle, b: MimeBundle, list: DifferenceList): void {
  const types = [...new Set([...Object.keys(a), ...Object.keys(b)])].sort();
  const onlyOne = types.filter((type) => !(type in a && type in b));
  for (const type of onlyOne) list.other(`${where}, form ${type}`, type in a ? "present" : "missing", type in b ? "present" : "missing");
  const hasData = types.some((type) => isJson(type));
  for (const type of types.filter((name) => name in a && name in b)) {
    if (type === TABLE_TYPE) compareTables(`${where}, table`, a[type], b[type], list);
    else if (type === FIGURE_TYPE) compareFigures(`${where}, figure`, a[type], b[type], list);
    else if (isJson(type)) compareValues(`${where}, ${type}`, a[type], b[type], list);
    else if (type.startsWith("image/")) compareImage(where, type, a, b, hasData, list);
    else compareWritten(where, type, textOf(a[type]), textOf(b[type]), hasData, list);
  }
}

function compareImage(where: string, type: string, a: MimeBundle, b: MimeBundle, hasData: boolean, list: DifferenceList): void {
  if (hasData || textOf(a[type]).trim() === textOf(b[type]).trim()) return;
  list.other(`${where}, picture ${type}`, "(recorded picture)", "(another picture)");
}

function compareWritten(where: string, type: string, a: string, b: string, hasData: boolean, list: DifferenceList): void {
  const [before, after] = type === "text/html" ? [withoutTags(a), withoutTags(b)] : [a, b];
  if (!hasData) return compareText(`${where}${type === "text/plain" ? "" : ` (${type})`}`, before, after, list);
  if (words(before) !== words(after)) list.other(`${where}, wording (${type})`, firstDifference(before, after), firstDifference(after, before));
}

function firstDifference(text: string, other: string): string {
  const others = new Set(other.split("\n").map(words));
  return text.split("\n").find((line) => !others.has(words(line)))?.trim() ?? "(a line less)";
}

function withoutTags(html: string): string {
  return html.replace(/<\/(?:tr|p|caption|li|h\d|div)>/g, "\n").replace(/<[^>]*>/g, " ").replace(/[ \t]+/g, " ").trim();
}

function isJson(type: string): boolean {
  return type === "application/json" || type.endsWith("+json");
}

function textOf(value: unknown): string {
  return typeof value === "string" || Array.isArray(value) ? wholeText(value as MultilineText) : JSON.stringify(value);
}

function describe(output: CellOutput): string {
  switch (output.output_type) {
    case "stream":
      return `${output.name}: ${wholeText(output.text).slice(0, 80).trim()}`;
    case "error":
      return `error ${output.ename}: ${output.evalue}`;
    case "display_data":
    case "execute_result":
      return Object.keys(output.data).sort().join(", ");
  }
}

/** Jupyter may store one text as several neighbouring streams. */
function mergeStreams(outputs: readonly CellOutput[]): CellOutput[] {
  const merged: CellOutput[] = [];
  for (const output of outputs) {
    const last = merged[merged.length - 1];
    if (output.output_type === "stream" && last?.output_type === "stream" && last.name === output.name) {
      merged[merged.length - 1] = { ...last, text: wholeText(last.text) + wholeText(output.text) };
    } else {
      merged.push(output);
    }
  }
  return merged;
}
