import { keyReader, type Comparison as Pairs } from "../../comparison";
import type { ExtraValue } from "../../dataset";
import type { CodeId, ProvisionId } from "../results/generated-names";
import type { ReadyCondition } from "../tests/condition";
import type { TestRow } from "../tests/study-row";
import { testRecords } from "../tests/test-records";
import type { COMPARISON_COLUMNS, EvidenceRow } from "./evidence-row";

/** What a comparison adds to a test. */
export type PairColumns = Pick<EvidenceRow, (typeof COMPARISON_COLUMNS)[number]>;

type Pair = Pick<Pairs["notJudged"][number], "row" | "column" | "mode" | "bound">;

interface PairReader {
  /** Provision, clause and status, as groups read them. */
  readonly key: (one: Pair) => readonly (string | number | null)[];
  readonly reasons: ReadonlyMap<string, string>;
}

const readers = new WeakMap<Pairs, PairReader>();

function readerOf(pairs: Pairs): PairReader {
  const known = readers.get(pairs);
  if (known) return known;
  const reasons = pairs.notJudged.map((one) => [placeOf(one), one.reason] as const);
  const reader = {
    key: keyReader(pairs, ["provision", "clause", "status"]),
    reasons: new Map(reasons),
  };
  readers.set(pairs, reader);
  return reader;
}

function placeOf({ row, column }: Pair): string {
  return `${row} ${column}`;
}

/** The columns of a pair; load and capacity of one that is not judged are those of its row. */
export function pairColumns(
  pairs: Pairs,
  pair: Pair & Partial<Pick<Pairs["evidence"][number], "load" | "capacity">>,
): PairColumns {
  const { row, column, mode, bound } = pair;
  const { key, reasons } = readerOf(pairs);
  const [provision, clause, status] = key(pair);
  const load = pair.load ?? pairs.tests.number(row, "peak_load_kN");
  const capacity = pair.capacity ?? (pairs.prediction.columns[column]?.capacity[row] ?? NaN) / 1000;
  return {
    code: pairs.code.id as CodeId,
    provision: provision as ProvisionId,
    clause: String(clause ?? ""),
    level: pairs.prediction.level,
    mode: mode ?? "unknown",
    load_kN: load,
    capacity_kN: capacity,
    ratio: load / capacity,
    lower_bound: bound ? "yes" : "no",
    status: status as PairColumns["status"],
    reason: reasons.get(placeOf(pair)) ?? null,
  };
}

/** The pairs of a comparison that meet a condition, judged and not judged ones alike. */
export function pairsThat(condition: ReadyCondition<EvidenceRow>, pairs: Pairs): Pairs {
  const records = testRecords(pairs.tests);
  const meets = (row: TestRow, of: () => PairColumns): boolean => {
    let made: PairColumns | null = null;
    const own = (): PairColumns => (made ??= of());
    const read = (column: string): ExtraValue =>
      column in row
        ? (row[column as keyof TestRow] as ExtraValue)
        : (own()[column as keyof PairColumns] ?? null);
    return condition.holds(read, () => ({ ...row, ...own() }));
  };
  const evidence = pairs.evidence.filter((one) =>
    meets(records[one.row]!, () => pairColumns(pairs, one)),
  );
  const notJudged = pairs.notJudged.filter((one) =>
    meets(records[one.row]!, () => pairColumns(pairs, one)),
  );
  return { ...pairs, evidence, notJudged };
}
