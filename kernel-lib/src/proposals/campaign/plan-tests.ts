import type { Comparison, GroupSettings } from "../../comparison";
import type { TestRowInput } from "../../dataset";
import { evidenceCells, type EvidenceCell } from "./evidence-cells";
import { planReading } from "./plan-reading";
import { FEWEST_FAILED_SERIES } from "./ratio-model";
import { HOPELESS, specimenFor, type SpecimenChoice } from "./specimen-choice";
import { testsToSettle, type SettleSettings, type TestsToSettle } from "./tests-to-settle";

/** One line of a test plan. */
export interface PlannedTests {
  readonly cell: EvidenceCell;
  /** Null where the cell is settled, or has no law to simulate from. */
  readonly settle: TestsToSettle | null;
  /** The specimen by which the mode can be brought about; null where none is needed, or the code predicts it for none. */
  readonly specimen: SpecimenChoice | null;
  /**
   * Specimens to make: further failures over the probability that the mode governs, in whole series; null where that
   * probability is not known, or no specimen brings the mode about.
   */
  readonly specimens: number | null;
  readonly series: number | null;
  readonly finding: "settled" | "tests needed" | "cannot be settled" | "no model";
  readonly reading: string;
}

export interface PlanSettings extends SettleSettings, Pick<GroupSettings, "distribution" | "cells"> {
  readonly materials?: readonly string[];
  /** Modes planned for; all of the comparison when left out. */
  readonly modes?: readonly string[];
  /** Wanted probability that the specimen fails in the mode; default 0.8. */
  readonly governs?: number;
}

/**
 * Plan of the next campaign: for each mode, material and size how many further tests settle the verdict in general with
 * the wanted probability, and which specimen makes the mode govern.
 *
 * A cell is settled where the verdict is `meets` or `falls short` and the fitted law agrees; `undecided`, `too few tests`
 * and `too few series` are not settled. Cells that are settled stay in the plan and say so.
 *
 * @param comparison with all modes that a specimen can fail in, at the code that is to be settled (present or proposed)
 * @example planTests(compare(tests, code("aci318-19")), { materials: ["gfrp", "bfrp"], seed: 1 })
 */
export function planTests(comparison: Comparison, settings: PlanSettings = {}): PlannedTests[] {
  const { materials = ["gfrp", "bfrp"], modes, perSeries = 3, seed = "test plan", governs = 0.8 } = settings;
  const studied = modes ? { ...comparison, evidence: comparison.evidence.filter(({ mode }) => modes.includes(mode)) } : comparison;
  const untested = new Map<object, TestsToSettle>();
  return evidenceCells(studied, materials, settings).map((cell): PlannedTests => {
    const label = `${seed} ${cell.mode} ${cell.material} ${cell.size}`;
    if (isSettled(cell)) return { cell, settle: null, specimen: null, specimens: 0, series: 0, finding: "settled", reading: planReading(cell, "settled", null, null, null, settings) };
    const settle = settleOf(cell, { ...settings, seed: label }, untested);
    const template = templateOf(comparison, cell);
    const specimen = template ? specimenFor(comparison, cell.mode, template, { wanted: governs, seed: label }) : null;
    const finding = settle === null ? "no model" : settle.further === null || cell.obstacle !== "" ? "cannot be settled" : "tests needed";
    const further = finding === "no model" ? FEWEST_FAILED_SERIES * perSeries : finding === "tests needed" ? (settle?.further ?? null) : null;
    const least = further === null || specimen === null || specimen.probability < HOPELESS ? null : perSeries * Math.ceil(further / specimen.probability / perSeries);
    const specimens = specimen && specimen.notComputed.length > 0 ? null : least;
    return { cell, settle, specimen, specimens, series: specimens === null ? null : specimens / perSeries, finding, reading: planReading(cell, finding, settle, specimen, least, settings) };
  });
}

/** Whether the verdict in general is reached, and is that of the fitted law where the law is of more tests than its own. */
function isSettled({ group, model }: EvidenceCell): boolean {
  if (group?.verdict !== "meets" && group?.verdict !== "falls short") return false;
  return model === null || (model.fractile >= 1) === (group.verdict === "meets");
}

/** Cells without tests of their own share the campaigns of their law. */
function settleOf({ model, tests }: EvidenceCell, settings: SettleSettings, untested: Map<object, TestsToSettle>): TestsToSettle | null {
  if (model === null) return null;
  const known = tests.length === 0 ? untested.get(model) : undefined;
  const found = known ?? testsToSettle(model, tests, settings);
  if (tests.length === 0) untested.set(model, found);
  return found;
}

/** The first judged specimen of the material and size, in uncracked concrete where there is one; another bar cannot stand for it. */
function templateOf({ tests, evidence }: Comparison, { material, size }: EvidenceCell): TestRowInput | null {
  const rows = [...new Set(evidence.map(({ row }) => row))].sort((a, b) => a - b).filter((row) => tests.text(row, "bar_material") === material && tests.text(row, "bar_size") === size);
  const found = rows.find((row) => tests.text(row, "cracked") === "no") ?? rows[0];
  return found === undefined ? null : tests.row(found);
}
