import { restsOnFinder } from "../provisions";
import type { Comparison, NotJudged } from "./comparison";
import { keyReader } from "./group-keys";
import { onePerTest } from "./one-per-test";
import type { NotJudgedStatus } from "./scope";

/** Rows counted by a reason. */
export interface CountedReason {
  readonly reason: string;
  readonly n: number;
}

/** Rows, or pairs, counted by status and reason. */
export interface CountedStatus extends CountedReason {
  readonly status: NotJudgedStatus;
}

/** Rows that are judged, by the mode of the provision and the mode observed. */
export interface JudgedRows {
  readonly mode: string;
  readonly failureMode: string;
  /** Rows that failed in a mode of the provision. */
  readonly failures: number;
  /** Rows that are lower bounds of it, and judged in no other way. */
  readonly lowerBounds: number;
}

/** What became of the rows that failed in one mode. */
export interface ObservedRows {
  readonly failureMode: string;
  readonly n: number;
  readonly judged: number;
}

/** What became of every row read: `read` is the sum of the parts. */
export interface RowAccount {
  readonly scope: Comparison["scope"];
  readonly read: number;
  readonly rejected: readonly CountedReason[];
  readonly excluded: readonly CountedReason[];
  readonly notJudged: readonly CountedStatus[];
  readonly judged: readonly JudgedRows[];
  /** Rows that are not judged and enter the ratios all the same, because the scope is `all`. */
  readonly pooled: readonly CountedStatus[];
  /**
   * Rows whose ratios were taken out of the comparison after it was made, as where one mode is
   * looked at.
   */
  readonly otherModes: number;
  /**
   * Every mode observed in a row that was not rejected, those without any provision too; no further
   * part of the sum.
   */
  readonly observed: readonly ObservedRows[];
  /**
   * Judged or pooled rows that rest on an input not stated, see `restsOnFinder`; no further part of
   * the sum.
   */
  readonly assumed: readonly CountedReason[];
}

/**
 * The account of every row: read = rejected + excluded + not judged + judged + pooled + in other
 * modes.
 *
 * A row counts once. It is judged when at least one of its pairs is, in the mode it failed in, or
 * as a lower bound of the mode with the least capacity; else it counts under the reason that
 * concerns the mode it failed in.
 * @param rejected rows that reading rejected, by reason; they never became tests
 * @example
 * accountOf(compare(data.tests, code("aci318-19")), rejectedOnReading(data.rejected)).notJudged
 */
export function accountOf(
  comparison: Comparison,
  rejected: readonly CountedReason[] = [],
): RowAccount {
  const { tests, prediction, unused, scope } = comparison;
  const observed = tests.texts("failure_mode");
  const failureMode = (row: number): string => observed[row] ?? "unknown";
  const refused = new Map(
    comparison.notJudged.map((one) => [`${String(one.row)} ${String(one.column)}`, one]),
  );
  const [judged, assumed, seen] = [
    new Map<string, { mode: string; failureMode: string; failures: number; lowerBounds: number }>(),
    new Tally<string>(),
    new Map<string, { n: number; judged: number }>(),
  ];
  const pooled: NotJudged[] = [];
  for (let row = 0; row < tests.length; row++)
    seen.set(failureMode(row), { n: (seen.get(failureMode(row))?.n ?? 0) + 1, judged: 0 });
  const chosen = onePerTest(comparison);
  const restsOn = prediction.columns.map((column) => restsOnFinder(prediction, column));
  for (const { row, column, mode, bound, components } of chosen) {
    const columns = components ? [components.tension, components.shear] : [column];
    for (const says of new Set(columns.flatMap((one) => restsOn[one]?.(row) ?? [])))
      assumed.add(says, says);
    const without = refused.get(`${String(row)} ${String(column)}`);
    if (without) {
      pooled.push(without);
      continue;
    }
    const key = `${mode} ${failureMode(row)}`;
    const known = judged.get(key) ?? {
      mode,
      failureMode: failureMode(row),
      failures: 0,
      lowerBounds: 0,
    };
    judged.set(
      key,
      bound
        ? { ...known, lowerBounds: known.lowerBounds + 1 }
        : { ...known, failures: known.failures + 1 },
    );
    seen.get(failureMode(row))!.judged += 1;
  }
  return {
    scope,
    read: tests.length + rejected.reduce((sum, { n }) => sum + n, 0),
    rejected,
    excluded: countedStatuses(unused.filter(({ status }) => status === "excluded")).map(
      ({ reason, n }) => ({ reason, n }),
    ),
    notJudged: countedStatuses(unused.filter(({ status }) => status !== "excluded")),
    judged: [...judged.values()].sort(
      (a, b) => compareWords(a.mode, b.mode) || compareWords(a.failureMode, b.failureMode),
    ),
    pooled: countedStatuses(pooled),
    otherModes: tests.length - unused.length - chosen.length,
    observed: [...seen]
      .map(([name, counts]) => ({ failureMode: name, ...counts }))
      .sort((a, b) => compareWords(a.failureMode, b.failureMode)),
    assumed: assumed.counted().map(({ value, n }) => ({ reason: value, n })),
  };
}

/**
 * Rows that reading rejected, counted by their first reason, without the value that each row has.
 */
export function rejectedOnReading(
  rejected: readonly { readonly reasons: readonly string[] }[],
): CountedReason[] {
  const tally = new Tally<string>();
  for (const { reasons } of rejected)
    tally.add(reasons[0] ?? "unreadable", reasons[0] ?? "unreadable");
  return tally.counted().map(({ value, n }) => ({ reason: value, n }));
}

/**
 * The pairs of each group that are not judged, by status and reason, under the group's values (in
 * the order of `by`) as JSON. Without `mode` among the columns a test counts once, and only where
 * none of its pairs enters the ratios.
 * @example notJudgedByGroup(comparison, ["mode", "bar_material"]).get('["bond","gfrp"]')
 */
export function notJudgedByGroup(
  comparison: Comparison,
  by: readonly string[],
): Map<string, CountedStatus[]> {
  const keyOf = keyReader(comparison, by);
  const groups = new Map<string, Omit<CountedStatus, "n">[]>();
  for (const one of by.includes("mode") ? pairsOutside(comparison) : rowsOutside(comparison)) {
    const key = JSON.stringify(keyOf(one));
    const members = groups.get(key);
    if (members) members.push(one);
    else groups.set(key, [one]);
  }
  return new Map([...groups].map(([key, members]) => [key, countedStatuses(members)]));
}

/** Pairs that are not judged and do not enter the ratios. */
function pairsOutside({ notJudged, evidence, scope }: Comparison): readonly NotJudged[] {
  if (scope === "judged") return notJudged;
  const pooled = new Set(evidence.map(({ row, column }) => `${String(row)} ${String(column)}`));
  return notJudged.filter(({ row, column }) => !pooled.has(`${String(row)} ${String(column)}`));
}

/** One entry for each test without a ratio. */
function rowsOutside({ unused, notJudged }: Comparison): NotJudged[] {
  const first = new Map<number, NotJudged>();
  for (const one of notJudged)
    if (!first.has(one.row) || (first.get(one.row)!.bound && !one.bound)) first.set(one.row, one);
  return unused.flatMap(({ row }) => first.get(row) ?? []);
}

function countedStatuses(all: readonly Omit<CountedStatus, "n">[]): CountedStatus[] {
  const tally = new Tally<Omit<CountedStatus, "n">>();
  for (const { status, reason } of all) tally.add(`${status} ${reason}`, { status, reason });
  return tally.counted().map(({ value, n }) => ({ ...value, n }));
}

function compareWords(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Counts values that are equal by a key; the most frequent first, equal counts by key. */
class Tally<T> {
  readonly #counts = new Map<string, { value: T; n: number }>();

  add(key: string, value: T): void {
    const known = this.#counts.get(key);
    if (known) known.n += 1;
    else this.#counts.set(key, { value, n: 1 });
  }

  counted(): { readonly value: T; readonly n: number }[] {
    return [...this.#counts]
      .sort(([a, { n }], [b, { n: m }]) => m - n || compareWords(a, b))
      .map(([, counted]) => counted);
  }
}
