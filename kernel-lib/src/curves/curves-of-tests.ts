import { basename, join } from "node:path";
import { withCurveValues } from "../dataset/reading/curve-values";
import { DatasetError, diagnostic, shortened, type Diagnostic } from "../dataset/diagnostics";
import type { Dataset } from "../dataset/dataset";
import type { TestRow } from "../dataset/schema/test-row";
import type { TestTable } from "../dataset/table/test-table";
import type { LoadCurve } from "./curve";
import { reducedColumns, type ReducedTest } from "./reduced-values";
import { readCurve } from "./read-curve";
import { reduceCurve } from "./reduce-curve";
import { type ReductionOptions } from "./curve-reduction";

/** Reduced records of a data set, and its tests with the reduced values as further columns. */
export interface ReducedCurves {
  /**
   * The tests; those with a record carry curve_peak_kN, curve_slip_at_peak_mm,
   * curve_stiffness_kN_mm, curve_adhesion_load_kN, curve_residual_kN, curve_energy_to_peak_kNmm,
   * curve_energy_kNmm. A blank slip_at_peak_mm is filled.
   */
  readonly tests: TestTable;
  readonly curves: ReadonlyArray<ReducedTest>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/**
 * Reduces the records that the column `curve` of a single-folder data set points to. Area and
 * modulus for the elongation of the free length come from the test's own row. A record whose peak
 * differs from peak_load_kN by more than 2 % is a finding.
 * @example
 * const { tests, curves } = await reduceCurvesOf(await readDataset("datasets/demo"), { freeLength_mm: 30 });
 */
export async function reduceCurvesOf(
  dataset: Dataset,
  options: ReductionOptions = {},
): Promise<ReducedCurves> {
  const folder = dataset.folders[0];
  if (folder === undefined || dataset.folders.length > 1)
    throw new RangeError(
      `records are read from one data set folder at a time: got ${String(dataset.folders.length)}, expected 1`,
    );
  const diagnostics: Diagnostic[] = [];
  const curves: ReducedTest[] = [];
  for (const row of dataset.tests.rows()) {
    const reduced = await reduceOne(row, folder, options, diagnostics);
    if (reduced !== null) curves.push(reduced);
  }
  return {
    tests: withCurveValues(
      dataset.tests,
      new Map(curves.map(({ test_id, reduction }) => [test_id, reducedColumns(reduction)])),
    ),
    curves,
    diagnostics,
  };
}

/**
 * Reduces logger files that belong to no data set; each file's name without its ending stands for
 * the test.
 * @param shown names used in findings and as links, one for each file
 */
export async function reduceCurveFiles(
  files: ReadonlyArray<string>,
  options: ReductionOptions = {},
  shown: ReadonlyArray<string> = files,
): Promise<Omit<ReducedCurves, "tests">> {
  const diagnostics: Diagnostic[] = [];
  const curves: ReducedTest[] = [];
  for (const [i, file] of files.entries()) {
    const name = shown[i] ?? file;
    const reduced = await reduceFile(
      file,
      name,
      basename(file).replace(/\.[^.]*$/, ""),
      options,
      diagnostics,
    );
    if (reduced !== null) curves.push(reduced);
  }
  return { curves, diagnostics };
}

async function reduceOne(
  row: TestRow,
  folder: string,
  options: ReductionOptions,
  diagnostics: Diagnostic[],
): Promise<ReducedTest | null> {
  const link = row.extra["curve"] ?? null;
  if (typeof link !== "string") return null;
  const say = (
    severity: "error" | "warning",
    rule: string,
    message: string,
    expected: string,
  ): null => {
    diagnostics.push(
      diagnostic(severity, rule, `${row.test_id}: ${message}, expected ${expected}`, {
        file: link,
        column: "curve",
        value: link,
        expected,
      }),
    );
    return null;
  };
  if (!isInside(link))
    return say(
      "error",
      "curve-outside",
      `the link "${shortened(link)}" leads out of the data set`,
      "a file within the data set",
    );
  const fromRow: ReductionOptions = {
    ...(row.bar_modulus_GPa === null ? {} : { barModulus_GPa: row.bar_modulus_GPa }),
    ...(row.bar_area_mm2 === null ? {} : { barArea_mm2: row.bar_area_mm2 }),
  };
  const reduced = await reduceFile(
    join(folder, link),
    link,
    row.test_id,
    { ...fromRow, ...options },
    diagnostics,
  );
  if (reduced !== null && Math.abs(reduced.reduction.peak_load_kN / row.peak_load_kN - 1) > 0.02) {
    say(
      "warning",
      "curve-peak",
      `the record's peak is ${reduced.reduction.peak_load_kN.toPrecision(4)} kN, the table says ${String(row.peak_load_kN)} kN`,
      "both within 2 %",
    );
  }
  return reduced;
}

async function reduceFile(
  path: string,
  shown: string,
  test_id: string,
  options: ReductionOptions,
  diagnostics: Diagnostic[],
): Promise<ReducedTest | null> {
  try {
    const reading = await readCurve(path);
    diagnostics.push(...reading.diagnostics.map((finding) => ({ ...finding, file: shown })));
    if (reading.curve === null) return null;
    const reduction = reduceCurve(reading.curve, options);
    for (const flag of reduction.flags)
      diagnostics.push(
        diagnostic("information", "curve-flag", `${test_id}: ${flag}`, {
          file: shown,
          column: "curve",
          value: shown,
          expected: "a look at the record",
        }),
      );
    return {
      test_id,
      file: shown,
      sha256: reading.sha256,
      reduction,
      freeEndSlip_mm: freeEndSlip(reading.curve, options),
    };
  } catch (error) {
    if (!(error instanceof RangeError) && !(error instanceof DatasetError)) throw error;
    diagnostics.push(
      diagnostic(
        "error",
        "unusable-curve",
        `${test_id}: ${error.message}; the record gives no values`,
        { file: shown, column: "curve", value: shown, expected: "a usable record" },
      ),
    );
    return null;
  }
}

function freeEndSlip(curve: LoadCurve, options: ReductionOptions): number | null {
  const both = (["free_end", "loaded_end"] as const).every((place) =>
    curve.gauges.some((gauge) => gauge.place === place),
  );
  return both && options.place !== "free_end"
    ? reduceCurve(curve, { ...options, place: "free_end" }).slip_at_peak_mm
    : null;
}

/** Whether a link stays within the data set's folder. */
export function isInside(link: string): boolean {
  return !/^([/\\]|[A-Za-z]:)/.test(link) && !link.split(/[/\\]/).includes("..");
}
