import type { Comparison } from "../../comparison";
import { TestTable, type TestRowInput } from "../../dataset";
import { predict, setupAllows, type Level } from "../../provisions";
import { gripShares, modelErrors, type ModelErrors } from "./model-errors";
import { modesNotComputed, type ModeNotComputed } from "./not-computed";
import { candidatesFor, type CandidateSettings } from "./specimen-candidates";

/** Below this probability a specimen is no way to bring the mode about. */
export const HOPELESS = 0.25;

/** What makes a mode govern, and with what probability. */
export interface SpecimenChoice {
  readonly mode: string;
  readonly setup: string;
  readonly embedment_mm: number;
  /** Distance to edge 1; null where it is remote. */
  readonly edge_1_mm: number | null;
  /** Bars of a square group with their spacing; 1 and null for a single bar. */
  readonly bars: number;
  readonly spacing_mm: number | null;
  /**
   * Probability that the wanted mode is the first to fail, and of what comes first instead most
   * often, among the modes that are computed: upper bounds where a mode is not.
   */
  readonly probability: number;
  readonly rival: string;
  readonly rivalProbability: number;
  /** Mean load at failure over the simulation, kN: what grip and jack must bear. */
  readonly load_kN: number;
  /** Whether the wanted probability is reached with every mode computed. */
  readonly reached: boolean;
  /** Modes that the specimen can fail in and whose capacity is not known. */
  readonly notComputed: readonly ModeNotComputed[];
  /** Modes whose model error had too few tests and was assumed. */
  readonly assumed: readonly string[];
}

export interface SpecimenSettings extends CandidateSettings {
  /** Wanted probability that the mode governs; default 0.8. */
  readonly wanted?: number;
  readonly simulations?: number;
  readonly seed?: number | string;
  readonly level?: Level;
}

/**
 * The specimen, among candidate embedments, edge distances and groups of four, for which a wanted
 * mode fails first with the wanted probability: Monte Carlo over the log-normal model error of
 * every mode the set-up leaves free, about the predictions of the code, and over the loads at which
 * grips broke before (Kaplan-Meier of load over bar strength). Of those that reach the wanted
 * probability the one with the least load; else the most probable.
 *
 * A mode whose capacity cannot be computed for want of an input or a provision is named in
 * `notComputed`; the probability is then an upper bound, and nothing counts as reached.
 *
 * @param template a specimen of the material and size; its concrete, adhesive and bar are kept
 * @returns null where the code predicts the mode for no candidate
 * @example specimenFor(comparison, "bond", template, { wanted: 0.9, simulations: 200, seed: 1 })
 */
export function specimenFor(
  comparison: Comparison,
  mode: string,
  template: TestRowInput,
  settings: SpecimenSettings = {},
): SpecimenChoice | null {
  const {
    wanted = 0.8,
    simulations = 2000,
    seed = "specimen",
    level = comparison.prediction.level,
  } = settings;
  const candidates = candidatesFor(mode, template, settings);
  const table = TestTable.fromRows(candidates);
  const prediction = predict(comparison.code, table, { ...comparison.prediction.settings, level });
  const errors = modelErrors(comparison, template.bar_material, seed, simulations);
  const grip =
    candidates[0]?.action === "tension"
      ? gripShares(comparison, template.bar_material, seed, simulations)
      : null;
  const choices = candidates.flatMap((candidate, row): SpecimenChoice[] => {
    const free = new Map<string, number>();
    for (const { provision, capacity } of prediction.columns) {
      const name = provision.modes[0];
      const force = capacity[row] ?? NaN;
      if (
        provision.action !== candidate.action ||
        !Number.isFinite(force) ||
        !provision.modes.some((one) => setupAllows(candidate.setup, one))
      )
        continue;
      free.set(name, Math.min(force, free.get(name) ?? Infinity));
    }
    if (!free.has(mode)) return [];
    const outcome = outcomeOf(mode, candidate, free, errors, grip, simulations);
    const notComputed = [
      ...modesNotComputed(prediction, candidate, row),
      ...gripNotComputed(candidate, grip),
    ];
    return [
      {
        ...outcome,
        notComputed,
        reached: notComputed.length === 0 && outcome.probability >= wanted,
      },
    ];
  });
  const reached = choices.filter((one) => one.reached);
  const best = (
    list: readonly SpecimenChoice[],
    better: (a: SpecimenChoice, b: SpecimenChoice) => boolean,
  ): SpecimenChoice | null =>
    list.reduce<SpecimenChoice | null>(
      (found, one) => (found === null || better(one, found) ? one : found),
      null,
    );
  return reached.length > 0
    ? best(reached, (a, b) => a.load_kN < b.load_kN)
    : best(choices, (a, b) => a.probability > b.probability);
}

/** Grips broke before, and the force at which they do is a share of the bar's strength. */
function gripNotComputed(candidate: TestRowInput, grip: Float64Array | null): ModeNotComputed[] {
  if (grip === null) return [];
  const blank = (["bar_area_mm2", "bar_strength_MPa"] as const).filter(
    (name) => !Number.isFinite(candidate[name] ?? NaN),
  );
  return blank.length === 0
    ? []
    : [{ mode: "rupture_at_grip", reason: `${blank.join(" and ")} is blank` }];
}

function outcomeOf(
  mode: string,
  candidate: TestRowInput,
  free: ReadonlyMap<string, number>,
  errors: ModelErrors,
  grip: Float64Array | null,
  simulations: number,
): Omit<SpecimenChoice, "reached" | "notComputed"> {
  const names = [...free.keys()];
  const draws = names.map((name) => errors.draws(name));
  const bars = (candidate.group_nx ?? 1) * (candidate.group_ny ?? 1);
  const barForce = bars * (candidate.bar_area_mm2 ?? NaN) * (candidate.bar_strength_MPa ?? NaN);
  const counts = new Map<string, number>();
  let sum = 0;
  for (let s = 0; s < simulations; s++) {
    let [least, first] = [Infinity, ""];
    names.forEach((name, k) => {
      const force = (free.get(name) ?? NaN) * (draws[k]?.[s] ?? NaN);
      if (force < least) [least, first] = [force, name];
    });
    const grips = grip ? (grip[s] ?? Infinity) * barForce : Infinity;
    if (grips < least) [least, first] = [grips, "rupture_at_grip"];
    counts.set(first, (counts.get(first) ?? 0) + 1);
    sum += least;
  }
  const share = (name: string): number => (counts.get(name) ?? 0) / simulations;
  const rival =
    [...counts.keys()].filter((name) => name !== mode).sort((a, b) => share(b) - share(a))[0] ??
    "none";
  return {
    mode,
    setup: candidate.setup,
    embedment_mm: candidate.embedment_mm,
    edge_1_mm: candidate.edge_1_mm ?? null,
    bars,
    spacing_mm: candidate.spacing_x_mm ?? null,
    probability: share(mode),
    rival,
    rivalProbability: share(rival),
    load_kN: sum / simulations / 1000,
    assumed: names.filter((name) => errors.assumed.has(name)),
  };
}
