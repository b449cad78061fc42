import { isSettled, type BondSlipFit, type ReducedTest, type UnsettledParameters } from "../curves";
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

function parameterRows({ test_id, fit, unsettled, why }: FittedRecord): TableRow[] {
  if (fit === null)
    return [{ test_id, parameter: null, remark: `not fitted: ${why ?? "no reason stated"}` }];
  const open = unsettled === null ? "" : `: ${unsettled.why}; ${unsettled.instead}`;
  return fit.parameters.map((one): TableRow =>
    // A number that the record does not settle would be chance.
    isSettled(one)
      ? { test_id, parameter: one.name, value: one.value, low: one.low, high: one.high }
      : { test_id, parameter: one.name, remark: `not settled by this record${open}` },
  );
}
