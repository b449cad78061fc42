import type { Comparison } from "../../comparison";
import type { TestRowInput } from "../../dataset";
import { evidenceCells, type EvidenceCell } from "./evidence-cells";
import { planReading } from "./plan-reading";
import type { PlannedTests, PlanSettings } from "./planned-tests";
import { FEWEST_FAILED_SERIES } from "./ratio-model";
import { HOPELESS, specimenFor } from "./specimen-choice";
import { testsToSettle, type SettleSettings, type TestsToSettle } from "./tests-to-settle";

/**
 * Plan of the next campaign: for each mode, material and size how many further tests settle the
 * verdict in general with the wanted probability, and which specimen makes the mode govern.
 *
 * A cell is settled where the verdict is `meets` or `falls short` and the fitted law agrees;
 * `undecided`, `too few tests` and `too few series` are not settled. Cells that are settled stay in
 * the plan and say so.
 *
 * @param comparison with all modes that a specimen can fail in, at the code that is to be settled
 *   (present or proposed)
 * @example planTests(comparison, { materials: ["gfrp"], simulations: 20, most: 6, seed: 1 })
 */
export function planTests(comparison: Comparison, settings: PlanSettings = {}): PlannedTests[] {
  const {
    materials = ["gfrp", "bfrp"],
    modes,
    perSeries = 3,
    seed = "test plan",
    governs = 0.8,
    errorsFrom = comparison,
  } = settings;
  const evidence = comparison.evidence.filter(({ mode }) => modes?.includes(mode) ?? true);
  const untested = new Map<object, TestsToSettle>();
  return evidenceCells({ ...comparison, evidence }, materials, settings).map(
    (cell): PlannedTests => {
      const label = `${seed} ${cell.mode} ${cell.material} ${cell.size}`;
      if (isSettled(cell)) {
        const reading = planReading(cell, "settled", null, null, null, settings);
        return {
          cell,
          settle: null,
          specimen: null,
          specimens: 0,
          series: 0,
          finding: "settled",
          reading,
        };
      }
      const settle = settleOf(cell, { ...settings, seed: label }, untested);
      const template = templateOf(comparison, cell);
      const specimen = template
        ? specimenFor(errorsFrom, cell.mode, template, { wanted: governs, seed: label })
        : null;
      const further =
        cell.model === null ? FEWEST_FAILED_SERIES * perSeries : (settle?.further ?? null);
      const finding =
        cell.model === null ? "no model" : further === null ? "cannot be settled" : "tests needed";
      const usable = further !== null && specimen !== null && specimen.probability >= HOPELESS;
      const least = usable
        ? perSeries * Math.ceil(further / specimen.probability / perSeries)
        : null;
      const specimens = specimen && specimen.notComputed.length > 0 ? null : least;
      const reading = planReading(cell, finding, settle, specimen, least, settings);
      return {
        cell,
        settle,
        specimen,
        specimens,
        series: specimens === null ? null : specimens / perSeries,
        finding,
        reading,
      };
    },
  );
}

/**
 * Whether the verdict in general is reached, and is that of the fitted law where the law is of more
 * tests than its own.
 */
function isSettled({ group, model }: EvidenceCell): boolean {
  if (group?.verdict !== "meets" && group?.verdict !== "falls short") return false;
  return model === null || model.fractile >= 1 === (group.verdict === "meets");
}

/** Cells without tests of their own share the campaigns of their law. */
function settleOf(
  { model, tests, obstacle }: EvidenceCell,
  settings: SettleSettings,
  untested: Map<object, TestsToSettle>,
): TestsToSettle | null {
  if (model === null || obstacle !== "") return null;
  const known = tests.length === 0 ? untested.get(model) : undefined;
  const found = known ?? testsToSettle(model, tests, settings);
  if (tests.length === 0) untested.set(model, found);
  return found;
}

/** The first judged specimen of the material and size, in uncracked concrete where there is one. */
function templateOf(
  { tests, evidence }: Comparison,
  { material, size }: EvidenceCell,
): TestRowInput | null {
  const judged = [...new Set(evidence.map(({ row }) => row))].sort((a, b) => a - b);
  const ofBar = judged.filter((row) => tests.text(row, "bar_material") === material);
  const rows = ofBar.filter((row) => tests.text(row, "bar_size") === size);
  const found = rows.find((row) => tests.text(row, "cracked") === "no") ?? rows[0];
  return found === undefined ? null : tests.row(found);
}
