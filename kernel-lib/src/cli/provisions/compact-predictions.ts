import { valueWords } from "../../comparison";
import type { TestTable } from "../../dataset";
import type { PredictionRow } from "../../provisions/printing/prediction-rows";
import { Table } from "../../tables";

/** Of each test its load, and the ratio to a capacity; null where there is none. */
export interface LoadOfRow {
  readonly load_kN: number | null;
  readonly ratio: number | null;
}

/**
 * Load and load over capacity of prediction rows. A test that is excluded, or a what-if row, has no
 * ratio.
 */
export function loadsOf(tests: TestTable): (row: PredictionRow) => LoadOfRow {
  const loads = tests.numbers("peak_load_kN");
  const excluded = tests.texts("excluded");
  const at = new Map(tests.texts("test_id").map((id, i) => [id ?? "", i]));
  return ({ test_id, capacity_kN }) => {
    const i = at.get(test_id) ?? -1;
    const load = loads[i] ?? NaN;
    const load_kN = Number.isFinite(load) ? load : null;
    const usable = load_kN !== null && capacity_kN !== null && (excluded[i] ?? null) === null;
    return { load_kN, ratio: usable ? load_kN / capacity_kN : null };
  };
}

/**
 * One line for each test and code: governing mode, its capacity, the load, their ratio, and how the
 * test ended or why there is no capacity.
 * @param whatIf whether the rows were not tested
 */
export function compactPredictions(
  tests: TestTable,
  rows: readonly PredictionRow[],
  title: string,
  whatIf: boolean,
): Table {
  const loadOf = loadsOf(tests);
  const [observed, excluded] = [tests.texts("failure_mode"), tests.texts("excluded")];
  const at = new Map(tests.texts("test_id").map((id, i) => [id ?? "", i]));
  const byTest = new Map<string, PredictionRow[]>();
  for (const row of rows) {
    const key = `${row.test_id}\n${row.code}`;
    byTest.set(key, [...(byTest.get(key) ?? []), row]);
  }
  const severalCodes = new Set(rows.map(({ code }) => code)).size > 1;
  const statusOf = (
    i: number,
    governing: PredictionRow | undefined,
    own: PredictionRow[],
  ): string => {
    const reason = excluded[i] ?? null;
    if (reason !== null) return `excluded: ${reason}`;
    if (governing === undefined)
      return `no capacity: ${[...new Set(own.flatMap(({ reasons }) => reasons))][0] ?? "no provision applies"}`;
    const mode = observed[i] ?? null;
    if (whatIf || mode === null) return "not tested";
    return mode === governing.mode ? "failed in this mode" : `ended by ${valueWords(mode)}`;
  };
  const lines = [...byTest.values()].map((own) => {
    const governing = own.find(({ governs }) => governs);
    const { test_id, code } = own[0]!;
    const load = loadOf(governing ?? own[0]!);
    return {
      test_id,
      ...(severalCodes ? { code } : {}),
      mode: governing === undefined ? null : valueWords(governing.mode),
      capacity_kN: governing?.capacity_kN ?? null,
      load_kN: whatIf ? null : load.load_kN,
      ratio: whatIf || governing === undefined ? null : load.ratio,
      status: statusOf(at.get(test_id) ?? -1, governing, own),
    };
  });
  return new Table({
    id: "predictions",
    title,
    rowKey: severalCodes ? ["test_id", "code"] : ["test_id"],
    columns: [
      { key: "test_id", title: "test", kind: "text" },
      ...(severalCodes ? [{ key: "code", title: "code", kind: "text" as const }] : []),
      { key: "mode", title: "governing mode", kind: "text" },
      { key: "capacity_kN", title: "capacity", kind: "number", unit: "kN", digits: 4 },
      { key: "load_kN", title: "load", kind: "number", unit: "kN", digits: 4 },
      { key: "ratio", title: "load/capacity", kind: "number", digits: 3 },
      { key: "status", title: "status", kind: "text" },
    ],
    rows: lines,
    notes: ["For every capacity and its reason: --all. For the hand calculation: explain <test>."],
  });
}
