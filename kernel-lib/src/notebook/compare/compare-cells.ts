import { wholeText } from "../format";
import type { CellOutput, MimeBundle } from "../format";
import { FIGURE_TYPE, compareFigures } from "./compare-figures";
import { comparePictures } from "./compare-pictures";
import { TABLE_TYPE, compareTables } from "./compare-tables";
import { compareText } from "./compare-text";
import { compareValues } from "./compare-values";
import { compareWritten } from "./compare-written";
import type { DataState } from "./compare-written";
import { DifferenceList, meaningOf } from "./difference";
import type { Difference } from "./difference";
import { describeOutput, pairOutputs } from "./pair-outputs";
import { picturesIn, textOf } from "./pictures";

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
    // Size and isolation of a picture stand there.
    compareValues(`${where}, metadata`, shownMetadata(a), shownMetadata(b), list);
  }
}

/**
 * Metadata but for what the kernel notes of a run in Jupyter: no reader sees that, and a review
 * reads it by itself, as what the notebook was recorded with.
 */
function shownMetadata({ metadata = {} }: { readonly metadata?: object }): object {
  return Object.fromEntries(Object.entries(metadata).filter(([key]) => key !== "code_comparison"));
}

/**
 * Compares first by the forms that hold the numbers as data, then all that a reader sees: the text
 * beside them, how it is marked up, and each picture, in whichever form it comes.
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
  const data = both.filter(isJson).map((type) => b[type]);
  for (const type of both.filter((name) => !isJson(name)))
    list.within({ form: type }, () => {
      if (!type.startsWith("image/"))
        compareWritten(where, type, textOf(a[type]), textOf(b[type]), state, data, list);
      comparePicturesIn(where, type, a[type], b[type], list);
    });
}

function comparePicturesIn(
  where: string,
  type: string,
  a: unknown,
  b: unknown,
  list: DifferenceList,
): void {
  const [before, after] = [picturesIn(type, a), picturesIn(type, b)];
  if (before.length !== after.length)
    list.other(`${where}, pictures in ${type}`, String(before.length), String(after.length));
  before.slice(0, after.length).forEach((picture, index) => {
    const other = after[index];
    if (other) comparePictures(where, picture, other, list);
  });
}

/** Whether a form of an output holds data, not text or a picture. */
export function isJson(type: string): boolean {
  return type === "application/json" || (type.endsWith("+json") && !type.startsWith("image/"));
}
