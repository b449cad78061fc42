import { valueWords, type Comparison, type GroupSettings } from "../../comparison";
import type { TestRowInput } from "../../dataset";
import { counted } from "../../statistics/reading";
import { evidenceCells, type EvidenceCell } from "./evidence-cells";
import { specimenFor, type SpecimenChoice } from "./specimen-choice";
import { testsToSettle, type SettleSettings, type TestsToSettle } from "./tests-to-settle";

/** One line of a test plan. */
export interface PlannedTests {
  readonly cell: EvidenceCell;
  /** Null where no law is known to simulate from. */
  readonly settle: TestsToSettle | null;
  /** The specimen by which the mode can be brought about; null where the code predicts it for none. */
  readonly specimen: SpecimenChoice | null;
  /** Specimens to make: further tests over the probability that the mode governs, in whole series; null where it cannot be told. */
  readonly specimens: number | null;
  readonly series: number | null;
  readonly finding: "settled" | "tests needed" | "cannot be settled" | "no model";
  readonly reading: string;
}

export interface PlanSettings extends SettleSettings, Pick<GroupSettings, "distribution"> {
  readonly materials?: readonly string[];
  /** Modes planned for; all of the comparison when left out. */
  readonly modes?: readonly string[];
  /** Wanted probability that the specimen fails in the mode; default 0.8. */
  readonly governs?: number;
}

/**
 * Plan of the next campaign: for each mode, material and size how many further tests settle the verdict with the wanted
 * probability, and which specimen makes the mode govern. Cells that are settled stay in the plan and say so.
 *
 * @param comparison with all modes that a specimen can fail in, at the code that is to be settled (present or proposed)
 * @example planTests(compare(tests, code("aci318-19")), { materials: ["gfrp", "bfrp"], seed: 1 })
 */
export function planTests(comparison: Comparison, settings: PlanSettings = {}): PlannedTests[] {
  const { materials = ["gfrp", "bfrp"], modes, perSeries = 3, seed = "test plan" } = settings;
  const { tests } = comparison;
  const series = tests.texts("series_id");
  const studied = modes ? { ...comparison, evidence: comparison.evidence.filter(({ mode }) => modes.includes(mode)) } : comparison;
  const cells = evidenceCells(studied, materials, (row) => series[row] ?? "", settings);
  return cells.map((cell) => {
    const label = `${seed} ${cell.mode} ${cell.material} ${cell.size}`;
    const settle = cell.model ? testsToSettle(cell.model, (cell.group?.evidence ?? []).map(({ ratio, bound, row }) => ({ ratio, bound, series: series[row] ?? "" })), { ...settings, seed: label }) : null;
    const template = templateOf(comparison, cell);
    const wanted = settings.governs ?? 0.8;
    const specimen = template && settle?.further !== 0 ? specimenFor(comparison, cell.mode, template, { wanted, seed: label }) : null;
    const further = settle === null ? perSeries : settle.further;
    const specimens = further === null || specimen === null || specimen.probability < HOPELESS ? null : perSeries * Math.ceil(further / specimen.probability / perSeries);
    const finding = settle === null ? "no model" : settle.further === 0 ? "settled" : settle.further === null ? "cannot be settled" : "tests needed";
    return { cell, settle, specimen, specimens: settle?.further === 0 ? 0 : specimens, series: settle?.further === 0 ? 0 : specimens === null ? null : specimens / perSeries, finding, reading: readingOf(cell, settle, specimen, specimens, settings) };
  });
}

/** Below this probability a specimen is no way to bring the mode about. */
const HOPELESS = 0.25;

/** The first judged specimen of the material and size, in uncracked concrete where there is one; another bar cannot stand for it. */
function templateOf({ tests, evidence }: Comparison, { material, size }: EvidenceCell): TestRowInput | null {
  const rows = [...new Set(evidence.map(({ row }) => row))].sort((a, b) => a - b).filter((row) => tests.text(row, "bar_material") === material && tests.text(row, "bar_size") === size);
  const found = rows.find((row) => tests.text(row, "cracked") === "no") ?? rows[0];
  return found === undefined ? null : tests.row(found);
}

function readingOf(cell: EvidenceCell, settle: TestsToSettle | null, specimen: SpecimenChoice | null, specimens: number | null, { wanted = 0.8, most = 60, perSeries = 3 }: PlanSettings): string {
  const name = `${valueWords(cell.mode)}, ${valueWords(cell.material)}, size ${cell.size}`;
  const have = cell.group ? `${counted(cell.group.n, "test")} and ${counted(cell.group.lowerBounds, "lower bound")} (${cell.group.verdict})` : "no tests";
  if (settle === null) return `${name}: ${have}, and nothing to plan from; make a first series of ${perSeries}${specimenWords(specimen)} and plan again.`;
  const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
  const model = `by the fitted law (${cell.basis}) its lower fractile is ${settle.fractile.toFixed(3)}, so that it ${settle.truth}`;
  if (settle.further === 0) return `${name}: ${have}; ${model}, and the present tests say so already; further ones would leave that with a probability of at least ${percent(settle.probability)}.`;
  if (settle.further === null) return `${name}: ${have}; ${model}, but so near to 1, or series differ so much, that ${most} further tests would show it with a probability of ${percent(settle.probability)} only.`;
  return `${name}: ${have}; ${model}. ${settle.further} further tests that fail in the mode or reach their limit show it with a probability of ${percent(settle.probability)} (wanted ${percent(wanted)})${specimens === null ? "" : `; make ${specimens} specimens`}${specimenWords(specimen)}.`;
}

function specimenWords(specimen: SpecimenChoice | null): string {
  if (specimen === null) return "";
  if (specimen.probability < HOPELESS) return `; of the specimens looked at none makes the mode govern with more than ${(100 * specimen.probability).toFixed(0)} % (${valueWords(specimen.rival)} comes first)`;
  const group = specimen.bars === 1 ? "" : `, ${specimen.bars} bars at ${specimen.spacing_mm ?? NaN} mm`;
  const edge = specimen.edge_1_mm === null ? "far from edges" : `${specimen.edge_1_mm} mm from the edge`;
  const rival = specimen.rivalProbability > 0 ? `, else ${valueWords(specimen.rival)}` : "";
  return `, embedded ${specimen.embedment_mm} mm${group}, ${edge} (${valueWords(specimen.setup)}, about ${specimen.load_kN.toFixed(0)} kN): the mode governs with ${(100 * specimen.probability).toFixed(0)} %${rival}${specimen.reached ? "" : ", less than wanted"}`;
}
