import { valueWords } from "../../comparison";
import { counted } from "../../statistics/reading";
import type { EvidenceCell } from "./evidence-cells";
import type { PlannedTests, PlanSettings } from "./planned-tests";
import type { ModeNotComputed } from "./not-computed";
import { FEWEST_FAILED_SERIES } from "./ratio-model";
import { HOPELESS, type SpecimenChoice } from "./specimen-choice";
import type { TestsToSettle } from "./tests-to-settle";

/**
 * One line of a plan in sentences: the present verdict, the fitted fractile, the further tests and
 * the specimen.
 * @param least specimens to make, at least; null where no specimen brings the mode about
 */
export function planReading(
  cell: EvidenceCell,
  finding: PlannedTests["finding"],
  settle: TestsToSettle | null,
  specimen: SpecimenChoice | null,
  least: number | null,
  settings: PlanSettings,
): string {
  const { wanted = 0.8, most = 60, perSeries = 3 } = settings;
  const name = `${valueWords(cell.mode)}, ${valueWords(cell.material)}, size ${cell.size}`;
  const start = `${name}: ${presentWords(cell)}`;
  if (finding === "settled") return `${start}. Settled.`;
  const specimenText = specimenWords(specimen, least);
  const few = FEWEST_FAILED_SERIES;
  if (cell.model === null) {
    const why = `fewer than ${few} series failed in this mode, so that between-series variance cannot be estimated`;
    return `${start}. No model: ${why}. First test ${few} series of ${perSeries}, then plan again.${specimenText}`;
  }
  const fractile = `${percent(settings.fractile ?? 0.05)} fractile`;
  const law = `The estimated ${fractile} is ${cell.model.fractile.toFixed(2)} (${cell.basis})`;
  if (settle === null)
    return `${start}. ${law}. Cannot be settled by further tests: ${cell.obstacle}.`;
  const campaign = (failures: number): string =>
    `${failures} further failures in ${counted(Math.floor(failures / perSeries), "series", "series")}`;
  const promise = `give the correct verdict with a probability of ${percent(settle.probability)}`;
  if (settle.further === null) {
    const why = "the fractile is too close to 1.0 for its uncertainty";
    const found = `${campaign(most)} ${promise} only (${percent(wanted)} required); ${why}`;
    return `${start}. ${law}. Cannot be settled: ${found}.${specimenText}`;
  }
  return `${start}. ${law}. ${campaign(settle.further)} ${promise} (${percent(wanted)} wanted).${specimenText}`;
}

function presentWords({ group, deciding }: EvidenceCell): string {
  if (group === null) return "no tests";
  const bounds = group.lowerBounds > 0 ? `, ${counted(group.lowerBounds, "lower bound")}` : "";
  const tests = `${counted(group.n, "failure")} in ${counted(group.series, "series", "series")}${bounds}`;
  return `${group.verdict}${deciding === "" ? "" : ` for ${deciding}`} (${tests})`;
}

function specimenWords(specimen: SpecimenChoice | null, least: number | null): string {
  if (specimen === null) return " No specimen of this bar is predicted to fail in this mode.";
  const share = percent(specimen.probability);
  if (specimen.probability < HOPELESS) {
    const rival = valueWords(specimen.rival);
    return ` None of the specimens considered makes the mode govern with a probability above ${share} (${rival} governs instead).`;
  }
  const group =
    specimen.bars === 1 ? "" : `, ${specimen.bars} bars at ${specimen.spacing_mm ?? NaN} mm`;
  const edge =
    specimen.edge_1_mm === null ? "away from edges" : `${specimen.edge_1_mm} mm from the edge`;
  const open = specimen.notComputed.length > 0;
  const make =
    least === null ? "Specimen" : `Make ${open ? "at least " : ""}${counted(least, "specimen")}`;
  const rival = specimen.rivalProbability > 0 ? `, else ${valueWords(specimen.rival)}` : "";
  const governs = open
    ? `of the modes computed it governs with ${share}${rival}, an upper bound`
    : `the mode governs with ${share}${rival}${specimen.reached ? "" : ", less than required"}`;
  const place = `embedded ${specimen.embedment_mm} mm${group}, ${edge}`;
  const load = `${valueWords(specimen.setup)}, about ${specimen.load_kN.toFixed(0)} kN`;
  return ` ${make}: ${place} (${load}); ${governs}${open ? `; ${notComputedWords(specimen.notComputed)}` : ""}.`;
}

/** "bar shear not computed: bar_shear_strength_MPa is blank". */
export function notComputedWords(modes: readonly ModeNotComputed[]): string {
  return modes.map(({ mode, reason }) => `${valueWords(mode)} not computed: ${reason}`).join("; ");
}

/** Whole percent; a share of simulations is never certain. */
function percent(share: number): string {
  const whole = (100 * share).toFixed(0);
  return whole === "100" ? ">99 %" : whole === "0" ? "<1 %" : `${whole} %`;
}
