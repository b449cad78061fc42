import { didYouMean } from "../reading/likely-name";
import { expectedInColumn } from "../schema/column";
import { testColumn } from "../schema/test-columns";
import type { ExtraValue, TestRow, TestRowInput } from "../schema/test-row";
import { TestTable } from "./test-table";

/** Values that a column takes in turn; null is a blank. */
export type WhatIfValues = Readonly<Record<string, ExtraValue | readonly ExtraValue[]>>;

/** What a test gave or was called: a row that nobody tested has none of it. */
const OF_THE_TEST = [
  "replicates",
  "load_sd_kN",
  "peak_load_kN",
  "slip_at_peak_mm",
  "failure_mode",
  "grip_break_stress_MPa",
  "excluded",
  "remarks",
] as const;
const NAMES = ["test_id", "study_id", "series_id"] as const;
const MOST = 100_000;

/**
 * Columns that belong to another one: where that one changes and they are not stated anew, they are
 * left blank. The bond strengths are those of the row's own crack state.
 */
const BELONGS_TO: Readonly<Record<string, readonly string[]>> = {
  bar_diameter_mm: ["bar_area_mm2", "bar_size"],
  cracked: ["bond_strength_char_MPa", "bond_strength_mean_MPa", "crack_width_mm"],
};

/**
 * Which columns become blank with the changes of `whatIfRows`, by the column that they belong to.
 * @example blankedBy(["cracked"]) // [{ changed: "cracked", blank: ["bond_strength_char_MPa", …] }]
 */
export function blankedBy(
  columns: readonly string[],
): { readonly changed: string; readonly blank: readonly string[] }[] {
  return Object.entries(BELONGS_TO)
    .filter(([changed]) => columns.includes(changed))
    .map(([changed, all]) => ({ changed, blank: all.filter((one) => !columns.includes(one)) }))
    .filter(({ blank }) => blank.length > 0);
}

/** Whether a what-if row may state a column: not what only a test gives, nor the row's names. */
export function mayBeChanged(column: string): boolean {
  return !([...OF_THE_TEST, ...NAMES] as readonly string[]).includes(column);
}

/**
 * Rows that nobody tested: each row once for every combination of the values, without load,
 * observed mode, slip, replicates, exclusion and remarks. A column that belongs to a changed one becomes blank where it
 * is not stated anew: area and size label with the diameter; with the crack state the bond
 * strengths, except that from cracked to uncracked concrete the stated uncracked bond strength takes
 * their place. Rows whose value does not change keep them.
 * @throws RangeError for a column that only a test gives, a value out of the column's limits, an
 *   empty list, or more than 100,000 rows
 * @example whatIfRows(tests, { concrete_strength_MPa: [20, 60], cracked: ["yes", "no"] }).length
 */
export function whatIfRows(tests: TestTable, values: WhatIfValues): TestTable {
  const columns = Object.entries(values).map(([column, given]) => {
    const list = (Array.isArray(given) ? given : [given]) as readonly ExtraValue[];
    if (list.length === 0)
      throw new RangeError(`${column}: the list of values is empty; expected at least one.`);
    list.forEach((value) => requireFit(column, value));
    return { column, list };
  });
  const combinations = columns.reduce((n, { list }) => n * list.length, 1);
  if (tests.length * combinations > MOST)
    throw new RangeError(
      `${tests.length} rows with ${combinations} combinations each are more than ${MOST} rows; choose fewer rows or values.`,
    );
  const rows = tests.rows().flatMap((row) =>
    Array.from({ length: combinations }, (_, k): TestRowInput => {
      let rest = k;
      const changes: Record<string, ExtraValue> = {};
      for (const { column, list } of [...columns].reverse()) {
        changes[column] = list[rest % list.length]!;
        rest = Math.floor(rest / list.length);
      }
      const id = columns.length === 0 ? row.test_id : `${row.test_id}, case ${k + 1}`;
      return changed(row, changes, id);
    }),
  );
  return TestTable.fromRows(rows);
}

function changed(
  row: TestRow,
  changes: Readonly<Record<string, ExtraValue>>,
  test_id: string,
): TestRowInput {
  const before = row as unknown as Readonly<Record<string, ExtraValue>>;
  const blank = new Set<string>(OF_THE_TEST);
  for (const [column, belonging] of Object.entries(BELONGS_TO))
    if (column in changes && changes[column] !== before[column])
      belonging.filter((name) => !(name in changes)).forEach((name) => blank.add(name));
  const uncracked =
    blank.has("bond_strength_char_MPa") && changes["cracked"] === "no"
      ? { bond_strength_char_MPa: row.bond_strength_uncracked_char_MPa }
      : {};
  const own = Object.entries(changes).filter(([column]) => testColumn(column) === null);
  const stated = Object.entries(changes).filter(([column]) => testColumn(column) !== null);
  return {
    ...row,
    ...Object.fromEntries([...blank].map((column) => [column, null])),
    ...uncracked,
    ...Object.fromEntries(stated),
    extra: { ...row.extra, ...Object.fromEntries(own) },
    test_id,
  };
}

/** @throws RangeError for a value that the data contract would not accept in the column */
function requireFit(column: string, value: ExtraValue): void {
  if (!mayBeChanged(column))
    throw new RangeError(
      `${column} is what a test gives or is named by; a row that nobody tested cannot state it.`,
    );
  const contract = testColumn(column);
  if (contract === null || (value === null && !contract.required)) return;
  const { kind, above = -Infinity, minimum = -Infinity, maximum = Infinity } = contract;
  const { categories, open } = contract;
  const fits =
    kind === "number" || kind === "integer"
      ? typeof value === "number" &&
        Number.isFinite(value) &&
        (kind === "number" || Number.isInteger(value)) &&
        value > above &&
        value >= minimum &&
        value <= maximum
      : typeof value === "string" && (!categories || open || categories.includes(value));
  if (!fits)
    throw new RangeError(
      `${column}: ${JSON.stringify(value)} does not fit${categories ? didYouMean(String(value), categories) : ""}. Expected ${expectedInColumn(contract)}.`,
    );
}
