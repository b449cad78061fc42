import {
  blankedBy,
  mayBeChanged,
  testsAtStrength,
  TEST_COLUMNS,
  whatIfRows,
  type WhatIfValues,
} from "../../dataset";
import { UnknownNameError } from "../results/names";
import type { ChosenRows } from "./chosen-rows";
import { derivedAnew } from "./derived-columns";
import type { TestRow } from "./study-row";

/** Values of columns for what-if rows: one, or several in turn. */
export type Changes = { readonly [K in keyof TestRow]?: TestRow[K] | readonly TestRow[K][] };

/** How loads follow the concrete strength: a number, from the tests, or by the observed mode. */
export interface StrengthOptions {
  readonly exponent?: number | "fitted" | "by mode";
}

/**
 * The rows with every combination of the values: nobody tested them.
 * @throws UnknownNameError for a column that rows do not state; RangeError for a value that its
 *   column does not take
 */
export function withChanges(chosen: ChosenRows, changes: Changes): ChosenRows {
  const own = chosen.table.extraColumns.map(({ name }) => `extra.${name}`);
  const known = [...TEST_COLUMNS.map(({ name }) => name).filter(mayBeChanged), ...own];
  const stated = TEST_COLUMNS.map(({ name }) => name);
  const values: Record<string, WhatIfValues[string]> = {};
  for (const [column, wanted] of Object.entries(changes)) {
    if (wanted === undefined) continue;
    // A column that only a test gives has an error of its own.
    if (!known.includes(column) && !stated.includes(column))
      throw new UnknownNameError("column to set", column, known);
    values[column.replace(/^extra\./, "")] = wanted;
  }
  const columns = Object.keys(values);
  return {
    ...chosen,
    table: derivedAnew(whatIfRows(chosen.table, values)),
    conditions: [...chosen.conditions, `what if: ${columns.map(plainWords).join(", ")}`],
    whatIf: {
      columns: [...new Set([...(chosen.whatIf?.columns ?? []), ...columns])],
      blanked: [
        ...(chosen.whatIf?.blanked ?? []),
        ...blankedBy(columns).map(
          ({ changed, blank }) =>
            `Where ${changed} changed, ${blank.join(", ")} is blank, since the stated value belongs to the row as tested; set it as well.`,
        ),
      ],
    },
  };
}

/** The tests with their loads brought to one cylinder strength. */
export function atStrength(
  chosen: ChosenRows,
  MPa: number,
  { exponent = "by mode" }: StrengthOptions,
): ChosenRows {
  const { tests, leftOut, fit } = testsAtStrength(
    chosen.table,
    MPa,
    exponent === "by mode" ? "by_mode" : exponent,
  );
  const by = fit
    ? `fitted exponent ${Number(fit.exponent.toPrecision(3))} ± ${Number(fit.standardError.toPrecision(2))}`
    : exponent === "by mode"
      ? "exponent by observed mode"
      : `exponent ${exponent}`;
  const without = leftOut === 0 ? "" : `, ${leftOut} not adjusted and excluded`;
  return {
    ...chosen,
    table: derivedAnew(tests),
    conditions: [...chosen.conditions, `loads adjusted to ${MPa} MPa, ${by}${without}`],
  };
}

const plainWords = (column: string): string => column.replaceAll("_", " ");
