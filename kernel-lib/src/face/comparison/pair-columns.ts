import type { Comparison as Pairs } from "../../comparison";
import type { ExtraValue } from "../../dataset";
import { clauseOf } from "../../provisions";
import type { CodeId, ProvisionId } from "../results/generated-names";
import type { ReadyCondition } from "../tests/condition";
import type { TestRow } from "../tests/study-row";
import { testRecords } from "../tests/test-records";
import type { COMPARISON_COLUMNS, EvidenceRow } from "./evidence-row";

/** What a comparison adds to a test. */
export type PairColumns = Pick<EvidenceRow, (typeof COMPARISON_COLUMNS)[number]>;

/** The columns of a pair that has a ratio. */
export function pairColumns(
  pairs: Pairs,
  { row, column, mode, load, capacity, ratio, bound }: Pairs["evidence"][number],
): PairColumns {
  const provision = pairs.prediction.columns[column]?.provision.id ?? "";
  const refused =
    pairs.scope === "all"
      ? pairs.notJudged.find((one) => one.row === row && one.column === column)
      : undefined;
  return {
    code: pairs.code.id as CodeId,
    provision: provision as ProvisionId,
    clause: clauseOf(provision),
    level: pairs.prediction.level,
    mode,
    load_kN: load,
    capacity_kN: capacity,
    ratio,
    lower_bound: bound ? "yes" : "no",
    status: refused?.status ?? "judged",
    reason: refused?.reason ?? null,
  };
}

/** The columns of a pair that is not judged. */
function refusedColumns(
  pairs: Pairs,
  { row, column, mode, bound, status, reason }: Pairs["notJudged"][number],
): PairColumns {
  const provision = pairs.prediction.columns[column]?.provision.id ?? "";
  const load = pairs.tests.number(row, "peak_load_kN");
  const capacity = (pairs.prediction.columns[column]?.capacity[row] ?? NaN) / 1000;
  return {
    code: pairs.code.id as CodeId,
    provision: provision as ProvisionId,
    clause: clauseOf(provision),
    level: pairs.prediction.level,
    mode: mode ?? "unknown",
    load_kN: load,
    capacity_kN: capacity,
    ratio: load / capacity,
    lower_bound: bound ? "yes" : "no",
    status,
    reason,
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
    meets(records[one.row]!, () => refusedColumns(pairs, one)),
  );
  return { ...pairs, evidence, notJudged };
}
