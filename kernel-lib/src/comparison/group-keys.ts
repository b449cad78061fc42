import { clauseOf, interactionRule } from "../provisions";
import type { Comparison } from "./comparison";
import { layoutOfTests } from "./judging/layout";

/** A test and the provision it is paired with, as far as groups ask. */
interface Keyed {
  readonly row: number;
  readonly column: number;
  readonly mode: string | null;
}

type KeyedComparison = Pick<Comparison, "tests" | "prediction"> &
  Partial<Pick<Comparison, "notJudged">>;

export type GroupKey = readonly (string | number | null)[];

/**
 * Reads the grouping columns of a pair: `mode` is the mode of the provision judged, `failure_mode`
 * the mode observed in the test, `provision` the provision's id (of tension and shear at once the
 * clause of the interaction), `clause` its clause, `status` that of the pair, `layout` that derived
 * from edges and number of bars (`layoutOfTests`); every other name is a column of the tests. A
 * column of your own that bears one of these names is reached as `extra.name`.
 * @throws Error for a name that is none of these
 */
export function keyReader(
  { tests, prediction, notJudged = [] }: KeyedComparison,
  by: readonly string[],
): (one: Keyed) => GroupKey {
  const readers = by.map((name) => {
    if (name === "mode") return (one: Keyed): string | null => one.mode;
    if (name === "provision" || name === "clause") {
      const joint = `${prediction.code.id}/${interactionRule(prediction.code, prediction.settings)?.clause ?? ""}`;
      const idOf = (one: Keyed): string =>
        one.mode === "interaction" ? joint : (prediction.columns[one.column]?.provision.id ?? "");
      return name === "provision" ? idOf : (one: Keyed): string => clauseOf(idOf(one));
    }
    if (name === "status") {
      const statuses = new Map(
        notJudged.map(({ row, column, status }) => [`${row} ${column}`, status]),
      );
      return (one: Keyed): string => statuses.get(`${one.row} ${one.column}`) ?? "judged";
    }
    if (name === "layout") {
      const layouts = layoutOfTests(tests);
      return (one: Keyed): string | null => layouts[one.row] ?? null;
    }
    if (name.startsWith("extra.") && tests.has(name.slice(6)))
      return (one: Keyed): string | number | null => tests.value(one.row, name.slice(6));
    if (!tests.has(name))
      throw new Error(
        `Cannot group by "${name}"; expected "mode", "provision" or a column of the tests, such as failure_mode, bar_material or bar_size.`,
      );
    return (one: Keyed): string | number | null => tests.value(one.row, name);
  });
  return (one) => readers.map((read) => read(one));
}

/** Order of keys: numbers by size, words by letter. */
export function compareKeys(
  a: readonly (string | number | null)[],
  b: readonly (string | number | null)[],
): number {
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [a[k] ?? null, b[k] ?? null];
    if (x === y) continue;
    const [p, q] = [Number(x), Number(y)];
    if (x !== null && y !== null && !Number.isNaN(p) && !Number.isNaN(q)) return p - q;
    return String(x) < String(y) ? -1 : 1;
  }
  return 0;
}
