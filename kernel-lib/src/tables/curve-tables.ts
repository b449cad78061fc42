import {
  isSettled,
  type BondSlipFit,
  type DriftTrial,
  type ReducedTest,
  type UnsettledParameters,
} from "../curves";
import { summarize } from "../statistics";
import type { TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** Load-displacement records reduced to numbers, one line a test. */
export function reducedCurveTable(curves: readonly ReducedTest[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["test_id"],
    columns: [
      { key: "test_id", title: "test", kind: "text" },
      { key: "peak", title: "peak load", unit: "kN", kind: "number" },
      { key: "slip", title: "slip at peak", unit: "mm", kind: "number" },
      { key: "stiffness", title: "initial stiffness", unit: "kN/mm", kind: "number" },
      { key: "adhesion", title: "loss of adhesion", unit: "kN", kind: "number" },
      { key: "residual", title: "residual load", unit: "kN", kind: "number" },
      { key: "energy", title: "energy to peak", unit: "kN mm", kind: "number" },
      { key: "flags", title: "check", kind: "text" },
    ],
    rows: curves.map(({ test_id, reduction }) => ({
      test_id,
      peak: reduction.peak_load_kN,
      slip: reduction.slip_at_peak_mm,
      stiffness: reduction.initial_stiffness_kN_mm,
      adhesion: reduction.adhesion_load_kN,
      residual: reduction.residual_load_kN,
      energy: reduction.energy_to_peak_kNmm,
      flags: reduction.flags.join("; ") || null,
    })),
  });
}

/** A bond law fitted to one record, or the reason why it was not. */
export interface FittedRecord {
  readonly test_id: string;
  readonly fit: BondSlipFit | null;
  readonly unsettled: UnsettledParameters | null;
  readonly why: string | null;
}

/** Parameters of a bond stress-slip law by record, with 95 % intervals. */
export function bondLawTable(records: readonly FittedRecord[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["test_id", "parameter"],
    columns: [
      { key: "test_id", title: "test", kind: "text" },
      { key: "parameter", title: "parameter", kind: "text" },
      { key: "value", title: "value", kind: "number", limit: null },
      { key: "low", title: "lower", kind: "number", limit: null },
      { key: "high", title: "upper", kind: "number", limit: null },
      { key: "remark", title: "remark", kind: "text" },
    ],
    rows: records.flatMap((record) => parameterRows(record)),
    notes: [...(text.notes ?? []), "Stresses in MPa, slips in mm; 95 % intervals of the fit."],
  });
}

/** Parameters of a law over all records: how far they scatter from record to record. */
export function bondLawSummary(records: readonly FittedRecord[], text: TableText): Table {
  const fits = records.flatMap(({ fit }) => (fit === null ? [] : [fit]));
  const names = fits[0]?.parameters.map(({ name }) => name) ?? [];
  return new Table({
    ...text,
    rowKey: ["parameter"],
    columns: [
      { key: "parameter", title: "parameter", kind: "text" },
      { key: "records", title: "records", kind: "integer", note: "that determine the parameter" },
      { key: "mean", title: "mean", kind: "number", limit: null },
      { key: "cov", title: "COV", kind: "number", digits: 2, limit: null },
      { key: "lowest", title: "lowest", kind: "number", limit: null },
      { key: "highest", title: "highest", kind: "number", limit: null },
    ],
    rows: names.map((name) => {
      const values = fits.flatMap(({ parameters }) =>
        parameters.filter((one) => one.name === name && isSettled(one)).map(({ value }) => value),
      );
      const { n, mean, cov, min, max } = summarize(values);
      return { parameter: name, records: n, mean, cov, lowest: min, highest: max };
    }),
    notes: [
      ...(text.notes ?? []),
      "Stresses in MPa, slips in mm. Each record is fitted separately.",
    ],
  });
}

function parameterRows({ test_id, fit, unsettled, why }: FittedRecord): TableRow[] {
  if (fit === null)
    return [{ test_id, parameter: null, remark: `not fitted: ${why ?? "no reason stated"}` }];
  const open = unsettled === null ? "" : `: ${unsettled.why}; ${unsettled.instead}`;
  const first = fit.parameters.find((one) => !isSettled(one))?.name;
  return fit.parameters.map(({ name, ...one }): TableRow => {
    if (isSettled({ name, ...one }))
      return { test_id, parameter: name, value: one.value, low: one.low, high: one.high };
    // A number that the record does not determine would be chance. The reason stands once.
    const remark =
      name === first ? `not determined by this record${open}` : `as for ${first ?? ""}`;
    return { test_id, parameter: name, remark };
  });
}

/** A record with a known drift of its load cell, one rule a row. */
export function driftTrialTable(trials: readonly DriftTrial[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["rule"],
    columns: [
      { key: "rule", title: "rule", kind: "text" },
      { key: "peak", title: "peak load", unit: "kN", kind: "number", digits: 4 },
      {
        key: "error",
        title: "error of the peak load",
        unit: "%",
        kind: "number",
        digits: 2,
        note: "against the record without the drift",
      },
      { key: "rate", title: "drift removed", unit: "N/s", kind: "number" },
      { key: "remark", title: "remark of the reduction", kind: "text" },
    ],
    rows: trials.map(({ rule, error, reduction }) => ({
      rule,
      peak: reduction.peak_load_kN,
      error: 100 * error,
      rate: 1000 * reduction.drift_kN_s,
      remark: reduction.flags.filter((flag) => flag.includes("drift")).join("; ") || null,
    })),
    notes: text.notes ?? [],
  });
}
