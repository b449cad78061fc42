import { wholeText } from "../format";
import type { CellOutput, MimeBundle, MultilineText } from "../format";
import { FIGURE_TYPE, compareFigures } from "./compare-figures";
import { TABLE_TYPE, compareTables } from "./compare-tables";
import { compareText } from "./compare-text";
import { compareValues } from "./compare-values";
import { compareWritten } from "./compare-written";
import type { DataState } from "./compare-written";
import { DifferenceList, meaningOf } from "./difference";
import type { Difference } from "./difference";
import { describeOutput, pairOutputs } from "./pair-outputs";

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
export function compareOutputs(
  recorded: readonly CellOutput[],
  rerun: readonly CellOutput[],
  tolerance: number,
): OutputComparison {
  const list = new DifferenceList(tolerance);
  const pairs = pairOutputs(recorded, rerun);
  pairs.forEach(([a, b], index) => {
    const where = pairs.length > 1 ? `output ${index + 1}` : "output";
    list.within({ output: index + 1 }, () => {
      if (!a || !b)
        list.other(where, a ? describeOutput(a) : "(none)", b ? describeOutput(b) : "(none)");
      else compareOutput(where, a, b, list);
    });
  });
  return judge(list);
}

function judge(list: DifferenceList): OutputComparison {
  const rules = [...new Set(list.found.flatMap(({ rule }) => (rule === undefined ? [] : [rule])))];
  const numeric = list.found.filter((difference) => difference.relative !== undefined);
  const worst = numeric.reduce<Difference | undefined>(
    (most, one) => ((one.relative ?? 0) > (most?.relative ?? -1) ? one : most),
    undefined,
  );
  const verdict = isChanged(list, 0)
    ? "changed"
    : numeric.length > 0
      ? "within_tolerance"
      : rules.length > 0
        ? "volatile"
        : "same";
  const largest =
    worst?.relative === undefined
      ? {}
      : { largest: { relative: worst.relative, where: worst.where } };
  return { verdict, differences: list.found, rules, ...largest };
}

function isChanged(list: DifferenceList, from: number): boolean {
  return list.found
    .slice(from)
    .some((difference) => meaningOf(difference, list.tolerance) === "changed");
}

function compareOutput(where: string, a: CellOutput, b: CellOutput, list: DifferenceList): void {
  if (a.output_type !== b.output_type) {
    list.other(where, describeOutput(a), describeOutput(b));
  } else if (a.output_type === "stream" && b.output_type === "stream") {
    if (a.name !== b.name) list.other(where, describeOutput(a), describeOutput(b));
    else compareText(`${where} (${a.name})`, wholeText(a.text), wholeText(b.text), list);
  } else if (a.output_type === "error" && b.output_type === "error") {
    compareText(`${where} (error)`, `${a.ename}: ${a.evalue}`, `${b.ename}: ${b.evalue}`, list);
  } else if ("data" in a && "data" in b) {
    compareBundles(where, a.data, b.data, list);
  }
}

/**
 * Compares first by the forms that hold the numbers as data, then the text beside them; a drawing
 * of data is not compared.
 */
function compareBundles(where: string, a: MimeBundle, b: MimeBundle, list: DifferenceList): void {
  const types = [...new Set([...Object.keys(a), ...Object.keys(b)])].sort();
  const both = types.filter((type) => type in a && type in b);
  for (const type of types) {
    if (!both.includes(type))
      list.other(
        `${where}, form ${type}`,
        type in a ? "present" : "missing",
        type in b ? "present" : "missing",
      );
  }
  const before = list.found.length;
  for (const type of both.filter(isJson)) {
    list.within({ form: type }, () => {
      if (type === TABLE_TYPE) compareTables(`${where}, table`, a[type], b[type], list);
      else if (type === FIGURE_TYPE) compareFigures(`${where}, figure`, a[type], b[type], list);
      else compareValues(`${where}, ${type}`, a[type], b[type], list);
    });
  }
  const state: DataState = !both.some(isJson)
    ? "no_data"
    : list.found.length === before
      ? "same"
      : isChanged(list, before)
        ? "changed"
        : "within_tolerance";
  for (const type of both.filter((name) => !isJson(name))) {
    const [text, other] = [textOf(a[type]), textOf(b[type])];
    if (!type.startsWith("image/"))
      list.within({ form: type }, () => compareWritten(where, type, text, other, state, list));
    else if (state === "no_data" && text.trim() !== other.trim())
      list.other(`${where}, picture ${type}`, "(recorded picture)", "(another picture)");
  }
}

function isJson(type: string): boolean {
  return type === "application/json" || type.endsWith("+json");
}

function textOf(value: unknown): string {
  return typeof value === "string" || Array.isArray(value)
    ? wholeText(value as MultilineText)
    : JSON.stringify(value);
}
