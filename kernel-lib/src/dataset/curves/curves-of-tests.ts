import { join } from "node:path";
import { diagnostic, shortened, type Diagnostic } from "../checks/diagnostics";
import type { Dataset } from "../reading/read-dataset";
import type { ExtraValue, TestRow, TestRowInput } from "../schema/test-row";
import { TestTable } from "../table/test-table";
import { readCurve } from "./read-curve";
import { reduceCurve, type CurveReduction, type ReductionOptions } from "./reduce-curve";

/** A test with its reduced record. */
export interface ReducedTest {
  readonly test_id: string;
  readonly file: string;
  readonly sha256: string;
  readonly reduction: CurveReduction;
}

/** Reduced records of a data set, and its tests with the reduced values as further columns. */
export interface ReducedCurves {
  /** The tests; those with a record carry curve_peak_kN, curve_slip_at_peak_mm, curve_stiffness_kN_mm, curve_adhesion_load_kN, curve_residual_kN, curve_energy_kNmm. A blank slip_at_peak_mm is filled. */
  readonly tests: TestTable;
  readonly curves: ReadonlyArray<ReducedTest>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/**
 * Reduces the records that the column `curve` of a single-folder data set points to. Area and modulus for the elongation of
 * the free length come from the test's own row. A record whose peak differs from peak_load_kN by more than 2 % is a finding.
 * @example const { tests, curves } = await reduceCurvesOf(await readDataset("datasets/demo"), { freeLength_mm: 30 });
 */
export async function reduceCurvesOf(dataset: Dataset, options: ReductionOptions = {}): Promise<ReducedCurves> {
  const folder = dataset.folders[0];
  if (folder === undefined || dataset.folders.length > 1) throw new RangeError(`records are read from one data set folder at a time: got ${String(dataset.folders.length)}, expected 1`);
  const diagnostics: Diagnostic[] = [];
  const curves: ReducedTest[] = [];
  const rows: TestRowInput[] = [];
  for (const row of dataset.tests.rows()) {
    const reduced = await reduceOne(row, folder, options, diagnostics);
    if (reduced !== null) curves.push(reduced);
    rows.push(reduced === null ? row : { ...row, slip_at_peak_mm: row.slip_at_peak_mm ?? reduced.reduction.slip_at_peak_mm, extra: { ...row.extra, ...reducedColumns(reduced.reduction) } });
  }
  return { tests: TestTable.fromRows(rows, rows.map((_, i) => dataset.tests.source(i))), curves, diagnostics };
}

async function reduceOne(row: TestRow, folder: string, options: ReductionOptions, diagnostics: Diagnostic[]): Promise<ReducedTest | null> {
  const link = row.extra["curve"] ?? null;
  if (typeof link !== "string") return null;
  const say = (severity: "error" | "warning" | "information", rule: string, message: string, expected: string): null => {
    diagnostics.push(diagnostic(severity, rule, `${row.test_id}: ${message}, expected ${expected}`, { file: link, column: "curve", value: link, expected }));
    return null;
  };
  if (!isInside(link)) return say("error", "curve-outside", `the link "${shortened(link)}" leads out of the data set`, "a file within the data set");
  try {
    const reading = await readCurve(join(folder, link));
    diagnostics.push(...reading.diagnostics.map((finding) => ({ ...finding, file: link })));
    if (reading.curve === null) return null;
    const fromRow: ReductionOptions = { ...(row.bar_modulus_GPa === null ? {} : { barModulus_GPa: row.bar_modulus_GPa }), ...(row.bar_area_mm2 === null ? {} : { barArea_mm2: row.bar_area_mm2 }) };
    const reduction = reduceCurve(reading.curve, { ...fromRow, ...options });
    for (const flag of reduction.flags) say("information", "curve-flag", flag, "a look at the record");
    if (Math.abs(reduction.peak_load_kN / row.peak_load_kN - 1) > 0.02) say("warning", "curve-peak", `the record's peak is ${reduction.peak_load_kN.toPrecision(4)} kN, the table says ${String(row.peak_load_kN)} kN`, "both within 2 %");
    return { test_id: row.test_id, file: link, sha256: reading.sha256, reduction };
  } catch (error) {
    return say("error", "unusable-curve", (error as Error).message, "a usable record");
  }
}

/** Whether a link stays within the data set's folder. */
export function isInside(link: string): boolean {
  return !/^([/\\]|[A-Za-z]:)/.test(link) && !link.split(/[/\\]/).includes("..");
}

function reducedColumns(r: CurveReduction): Readonly<Record<string, ExtraValue>> {
  return {
    curve_peak_kN: r.peak_load_kN, curve_slip_at_peak_mm: r.slip_at_peak_mm, curve_stiffness_kN_mm: r.initial_stiffness_kN_mm,
    curve_adhesion_load_kN: r.adhesion_load_kN, curve_residual_kN: r.residual_load_kN, curve_energy_kNmm: r.energy_kNmm,
  };
}
