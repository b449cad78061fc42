import { bondSlipCurve, type BondSlipCurve, type ReducedTest } from "../curves";
import { count } from "./results/names";
import type { TestRow } from "./tests/study-row";

/** A reduced record with its test. */
export interface CurveOfTest extends ReducedTest {
  readonly row: TestRow;
  /** The file of the raw record. */
  readonly path: string;
}

/** Titles of the axes of bond stress against slip. */
export const [SLIP, STRESS] = ["Slip (mm)", "Bond stress (MPa)"];

/** More curves than this cannot be told by eye in one figure. */
export const MOST_DRAWN = 6;

/** A record as average bond stress over the bonded length against slip. */
export function bondSlip({ reduction, row }: CurveOfTest): BondSlipCurve {
  return bondSlipCurve(reduction, row.bar_diameter_mm, row.embedment_mm);
}

/** The same as the points of a line. */
export function measured(of: CurveOfTest): { label: string; x: number[]; y: number[] } {
  const { slip_mm, bond_stress_MPa } = bondSlip(of);
  return { label: of.test_id, x: Array.from(slip_mm), y: Array.from(bond_stress_MPa) };
}

/** How many records a figure draws. */
export function drawnWords(drawn: number, all: number): string {
  if (all === 0) return "No record.";
  return drawn === all
    ? `${count(all, "record")}.`
    : `The first ${drawn} of ${all} records; where(...) chooses others.`;
}
