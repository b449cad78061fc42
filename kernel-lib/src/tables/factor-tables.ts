import type { DerivedFactor, LeftOut } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * Derived factors as a table, the three criteria side by side; a document that lists their warnings
 * elsewhere omits that wide column.
 */
export function factorTable(
  factors: readonly DerivedFactor[],
  text: TableText,
  { warnings = true }: { readonly warnings?: boolean } = {},
): Table {
  return new Table({
    ...text,
    rowKey: ["label"],
    columns: [
      { key: "label", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "series", title: "series", kind: "integer" },
      {
        key: "fractile",
        title: "fractile",
        kind: "number",
        note: "factor for which the lower bound of the 5 % fractile of test/predicted is 1.0",
      },
      {
        key: "as_steel",
        title: "as steel",
        kind: "number",
        note: "lower bound of the ratio of 5 % fractiles, FRP to steel, in cells where both were tested",
      },
      {
        key: "reliability",
        title: "reliability",
        kind: "number",
        note: "lower bound of the factor for the target index with the strength reduction of the code",
      },
      {
        key: "criterion",
        title: "criterion",
        kind: "text",
        note: "from which the factor is proposed",
      },
      { key: "estimate", title: "estimate", kind: "number", note: "by this criterion" },
      {
        key: "upper",
        title: "upper bound",
        kind: "number",
        note: "by this criterion; if below 1.0, the tests show that a reduction is needed",
      },
      {
        key: "rounded",
        title: "factor",
        kind: "number",
        digits: 2,
        note: "lower bound by this criterion, rounded down, at most 1",
      },
      { key: "supported", title: "supported", kind: "verdict", note: "upper bound below 1.0" },
      {
        key: "lowest_without_study",
        title: "lowest without one study",
        kind: "number",
        note: "factor from the remaining tests when each study is omitted in turn",
      },
      {
        key: "without_study",
        title: "without one study",
        kind: "verdict",
        note: "whether the factor does not exceed that from the remaining tests without any one study or laboratory",
      },
      ...(warnings ? [{ key: "warnings", title: "warnings", kind: "text" as const }] : []),
    ],
    rows: factors.map((factor) => {
      const without = factor.leftOut.filter(
        ({ unit, factor: one }) => unit === "study" && one !== null,
      );
      const lowest = without.length === 0 ? null : Math.min(...without.map((one) => one.factor!));
      const chosen = factor.criteria[factor.criterion];
      return {
        label: factor.label,
        n: factor.n,
        n_lower_bounds: factor.lowerBounds,
        series: factor.series,
        fractile: factor.criteria.fractile.factor,
        as_steel: factor.criteria["as steel"].factor,
        reliability: factor.criteria.reliability.factor,
        criterion: factor.criterion,
        estimate: chosen.estimate,
        upper: chosen.upper,
        rounded: factor.rounded,
        supported:
          factor.status === "not derived"
            ? "no factor"
            : factor.rounded === 1
              ? "no change"
              : factor.supported
                ? "yes"
                : "no",
        lowest_without_study: lowest,
        without_study: withoutOne(factor),
        ...(warnings
          ? { warnings: factor.status === "derived" ? factor.warnings.join("; ") : factor.reading }
          : {}),
      };
    }),
  });
}

function withoutOne({ leftOut, status }: DerivedFactor): string | null {
  if (status === "not derived") return null;
  if (leftOut.length === 0) return "one study only";
  return leftOut.some(({ adequate }) => adequate === false)
    ? "not adequate"
    : leftOut.some(({ adequate }) => adequate === null)
      ? "too few tests"
      : "adequate";
}

/** The cells in which steel and FRP were both tested, behind the criterion "as steel". */
export function steelPairTable(factors: readonly DerivedFactor[], text: TableText): Table {
  // Only cells behind a factor: elsewhere steel may be judged by another provision.
  const behind = factors.filter(({ criteria }) => criteria["as steel"].factor !== null);
  const parts = behind.flatMap(({ steel }) => steel.pairs.map(({ cell }) => cell.split(", ")));
  const same = (k: number): boolean =>
    parts.length > 1 && parts.every((one) => one[k] === parts[0]![k]);
  const short = (cell: string): string =>
    cell
      .split(", ")
      .filter((_, k) => !same(k))
      .join(", ");
  const shared = (parts[0] ?? []).filter((_, k) => same(k));
  return new Table({
    ...text,
    rowKey: ["label", "cell"],
    notes: [
      ...(shared.length > 0 ? [`All cells: ${shared.join(", ")}.`] : []),
      ...(text.notes ?? []),
    ],
    columns: [
      { key: "label", title: "group", kind: "text" },
      { key: "cell", title: "cell", kind: "text" },
      { key: "n_steel", title: "steel, n", kind: "integer" },
      { key: "n_frp", title: "FRP, n", kind: "integer" },
      { key: "series_steel", title: "steel, series", kind: "integer" },
      { key: "series_frp", title: "FRP, series", kind: "integer" },
      {
        key: "ratio",
        title: "FRP / steel",
        kind: "number",
        note: "geometric means of test/predicted, all series weighted equally; bar sizes may differ",
      },
    ],
    rows: behind.flatMap(({ label, steel }) =>
      steel.pairs.map(({ cell, failures, series, ratio }) => ({
        label,
        cell: short(cell),
        n_steel: failures[0],
        n_frp: failures[1],
        series_steel: series[0],
        series_frp: series[1],
        ratio,
      })),
    ),
  });
}

/** A proposed factor without each part of the evidence in turn, judged on the part left out. */
export function leftOutTable(
  found: readonly {
    readonly label: string;
    readonly proposed: number;
    readonly leftOut: readonly LeftOut[];
  }[],
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["group", "unit", "left"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "unit", title: "left out", kind: "text" },
      { key: "left", title: "which", kind: "text" },
      { key: "proposed", title: "proposed", kind: "number", digits: 2 },
      {
        key: "factor",
        title: "factor from the remaining tests",
        kind: "number",
        note: "not rounded, at most 1",
      },
      {
        key: "adequate",
        title: "adequate",
        kind: "verdict",
        note: "proposed factor does not exceed the factor from the remaining tests",
      },
      { key: "n", title: "n left out", kind: "integer", note: "failures in the part omitted" },
      {
        key: "below",
        title: "below",
        kind: "integer",
        note: "of these, below the capacity changed by the factor from the remaining tests",
      },
      {
        key: "fractile",
        title: "fractile there",
        kind: "number",
        note: "estimated 5 % fractile of the ratio of test to that changed capacity, series effect ignored; blank with fewer than 3 failures",
      },
    ],
    rows: found.flatMap(({ label, proposed, leftOut }) =>
      leftOut.map((one) => ({
        group: label,
        unit: one.unit,
        left: one.left,
        proposed,
        factor: one.factor,
        adequate: one.adequate === null ? "too few tests" : one.adequate ? "yes" : "no",
        n: one.n,
        below: one.below,
        fractile: one.fractile,
      })),
    ),
  });
}
