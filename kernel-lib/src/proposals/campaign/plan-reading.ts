import { valueWords } from "../../comparison";
import { counted } from "../../statistics/reading";
import type { EvidenceCell } from "./evidence-cells";
import type { PlannedTests, PlanSettings } from "./plan-tests";
import type { ModeNotComputed } from "./not-computed";
import { FEWEST_FAILED_SERIES } from "./ratio-model";
import { HOPELESS, type SpecimenChoice } from "./specimen-choice";
import type { TestsToSettle } from "./tests-to-settle";

/**
 * One line of a plan in sentences: the present verdict, the fitted fractile, the further tests and the specimen.
 * @param least specimens to make, at least; null where no specimen brings the mode about
 */
export function planReading(cell: EvidenceCell, finding: PlannedTests["finding"], settle: TestsToSettle | null, specimen: SpecimenChoice | null, least: number | null, settings: PlanSettings): string {
  const { wanted = 0.8, most = 60, perSeries = 3 } = settings;
  const name = `${valueWords(cell.mode)}, ${valueWords(cell.material)}, size ${cell.size}`;
  const start = `${name}: ${presentWords(cell)}`;
  if (finding === "settled") return `${start}. Settled.`;
  const specimenText = specimenWords(specimen, least);
  if (settle === null) return `${start}. No model: fewer than ${FEWEST_FAILED_SERIES} series failed in this mode, so that between-series variance cannot be estimated. Test ${FEWEST_FAILED_SERIES} series of ${perSeries} first and plan again.${specimenText}`;
  const law = `The estimated 5 % fractile is ${cell.model?.fractile.toFixed(2) ?? "–"} (${cell.basis})`.replace("5 %", percent(settings.fractile ?? 0.05));
  if (cell.obstacle !== "") return `${start}. ${law}. Cannot be settled by further tests: ${cell.obstacle}.`;
  if (finding === "cannot be settled") return `${start}. ${law}. Cannot be settled: ${most} further failures in ${counted(Math.floor(most / perSeries), "series", "series")} give the right verdict with a probability of ${percent(settle.probability)} only (${percent(wanted)} wanted); the fractile is too close to 1.0 for its uncertainty.${specimenText}`;
  const further = settle.further ?? 0;
  return `${start}. ${law}. ${further} further failures in ${counted(further / perSeries, "series", "series")} give the right verdict with a probability of ${percent(settle.probability)} (${percent(wanted)} wanted).${specimenText}`;
}

function presentWords({ group, deciding }: EvidenceCell): string {
  if (group === null) return "no tests";
  const bounds = group.lowerBounds > 0 ? `, ${counted(group.lowerBounds, "lower bound")}` : "";
  return `${group.verdict}${deciding === "" ? "" : ` for ${deciding}`} (${counted(group.n, "failure")} in ${counted(group.series, "series", "series")}${bounds})`;
}

function specimenWords(specimen: SpecimenChoice | null, least: number | null): string {
  if (specimen === null) return " No specimen of this bar is predicted to fail in this mode.";
  if (specimen.probability < HOPELESS) return ` None of the specimens considered makes the mode govern with more than ${percent(specimen.probability)} (${valueWords(specimen.rival)} comes first).`;
  const group = specimen.bars === 1 ? "" : `, ${specimen.bars} bars at ${specimen.spacing_mm ?? NaN} mm`;
  const edge = specimen.edge_1_mm === null ? "away from edges" : `${specimen.edge_1_mm} mm from the edge`;
  const open = specimen.notComputed.length > 0;
  const make = least === null ? "Specimen" : `Make ${open ? "at least " : ""}${counted(least, "specimen")}`;
  const rival = specimen.rivalProbability > 0 ? `, else ${valueWords(specimen.rival)}` : "";
  const governs = `the mode governs with ${open ? "at most " : ""}${percent(specimen.probability)}${rival}${specimen.reached || open ? "" : ", less than wanted"}`;
  return ` ${make}: embedded ${specimen.embedment_mm} mm${group}, ${edge} (${valueWords(specimen.setup)}, about ${specimen.load_kN.toFixed(0)} kN); ${governs}${open ? `; ${notComputedWords(specimen.notComputed)}` : ""}.`;
}

/** "bar shear not computed: bar_shear_strength_MPa is blank". */
export function notComputedWords(modes: readonly ModeNotComputed[]): string {
  return modes.map(({ mode, reason }) => `${valueWords(mode)} not computed: ${reason}`).join("; ");
}

/** Whole percent; never 100 % or 0 % for a share that is not. */
function percent(share: number): string {
  const whole = (100 * share).toFixed(0);
  if (whole === "100" && share < 1) return ">99 %";
  return whole === "0" && share > 0 ? "<1 %" : `${whole} %`;
}
