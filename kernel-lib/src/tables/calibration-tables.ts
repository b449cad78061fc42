import type { Calibration } from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** Calibrations to EN 1990 Annex D.8, one line a group. */
export function calibrationTable(found: readonly Calibration[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "method", title: "fit", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "b", title: "b", kind: "number", limit: null, note: "mean correction, D.8.2.2.3" },
      {
        key: "scatter",
        title: "V_δ",
        kind: "number",
        digits: 2,
        limit: null,
        note: "coefficient of variation of the error terms, D.8.2.2.4",
      },
      {
        key: "prior",
        title: "V_rt",
        kind: "number",
        digits: 2,
        limit: null,
        note: "scatter of the basic variables from prior knowledge",
      },
      { key: "rk", title: "r_k / r_n", kind: "number", note: "factor for the 5 % value" },
      { key: "rd", title: "r_d / r_n", kind: "number", note: "factor for the design value" },
      { key: "partial", title: "γ_M", kind: "number", limit: null, note: "r_k / r_d" },
      { key: "trend", title: "trends", kind: "text" },
    ],
    rows: found.map((one) => ({
      group: one.label,
      method: one.method,
      n: one.n,
      n_lower_bounds: one.lowerBounds,
      b: one.terms?.b ?? null,
      scatter: one.terms?.cov ?? null,
      prior: one.budget.cov,
      rk: one.characteristicFactor,
      rd: one.designFactor,
      partial: one.partialFactor,
      trend:
        one.status === "not derived"
          ? null
          : one.trends
              .filter(({ trend }) => trend === "trend")
              .map(({ variable }) => variable.replace(/_(mm|MPa)$/, "").replaceAll("_", " "))
              .join(", ") || "none found",
    })),
  });
}

/** The calculation of Annex D.8 line by line, for checking by hand. */
export function calibrationStepsTable(found: readonly Calibration[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["group", "symbol"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "symbol", title: "symbol", kind: "text" },
      { key: "formula", title: "formula", kind: "text" },
      { key: "value", title: "value", kind: "number", digits: 4, limit: null },
      { key: "clause", title: "clause", kind: "text" },
    ],
    rows: found.flatMap(({ label, trace }) => trace.map((line) => ({ group: label, ...line }))),
  });
}
