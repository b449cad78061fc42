import type { Comparison } from "../../comparison";
import { TestTable, type TestRowInput } from "../../dataset";
import { predict, setupAllows, type Level } from "../../provisions";
import { createRandom } from "../../statistics";
import { limitAbove } from "../../statistics/censoring/characteristic-censored";
import { stepsOf } from "../../statistics/censoring/kaplan-meier";
import { ratioModelOf } from "./ratio-model";

/** What makes a mode govern, and with what probability. */
export interface SpecimenChoice {
  readonly mode: string;
  readonly setup: string;
  readonly embedment_mm: number;
  /** Distance to edge 1; null where it is far. */
  readonly edge_1_mm: number | null;
  /** Bars of a square group with their spacing; 1 and null for a single bar. */
  readonly bars: number;
  readonly spacing_mm: number | null;
  /** Probability that the wanted mode is the first to fail, and of what comes first instead most often. */
  readonly probability: number;
  readonly rival: string;
  readonly rivalProbability: number;
  /** Mean load at failure over the simulation, kN: what grip and jack must bear. */
  readonly load_kN: number;
  readonly reached: boolean;
  /** Modes whose model error had too few tests and was assumed. */
  readonly assumed: readonly string[];
}

export interface SpecimenSettings {
  /** Wanted probability that the mode governs; default 0.8. */
  readonly wanted?: number;
  /** Candidate embedments and edge distances in bar diameters. */
  readonly embedments?: readonly number[];
  readonly edges?: readonly number[];
  /** Spacings of groups of four, in bar diameters, looked at for the modes that bars share concrete in. */
  readonly spacings?: readonly number[];
  readonly simulations?: number;
  readonly seed?: number | string;
  readonly level?: Level;
}

/** Model error taken for a mode without 3 failures: mean 1, coefficient of variation 0.15 (assumed, no source). */
const ASSUMED_COV = 0.15;

/**
 * The specimen, among candidate embedments, edge distances and groups of four, for which a wanted mode fails first with the wanted
 * probability: Monte Carlo over the log-normal model error of every mode the set-up leaves free, about the predictions
 * of the code, and over the loads at which grips broke before (Kaplan-Meier of load over bar strength). Of those that
 * reach the wanted probability the one with the least load; else the most probable.
 *
 * @param template a specimen of the material and size; its concrete, adhesive and bar are kept
 * @returns null where the code predicts the mode for no candidate
 * @example specimenFor(comparison, "bond", template, { wanted: 0.9, seed: 1 })
 */
export function specimenFor(comparison: Comparison, mode: string, template: TestRowInput, settings: SpecimenSettings = {}): SpecimenChoice | null {
  const { wanted = 0.8, simulations = 2000, seed = "specimen", level = comparison.prediction.level } = settings;
  const candidates = candidatesFor(mode, template, settings);
  const table = TestTable.fromRows(candidates);
  const prediction = predict(comparison.code, table, { ...comparison.prediction.settings, level });
  const errors = modelErrors(comparison, template.bar_material, seed, simulations);
  const grip = candidates[0]?.action === "tension" ? gripShares(comparison, template.bar_material, seed, simulations) : null;
  const choices = candidates.flatMap((candidate, row): SpecimenChoice[] => {
    const free = new Map<string, number>();
    for (const { provision, capacity } of prediction.columns) {
      const name = provision.modes[0];
      const force = capacity[row] ?? NaN;
      if (provision.action !== candidate.action || !Number.isFinite(force) || !provision.modes.some((one) => setupAllows(candidate.setup, one))) continue;
      free.set(name, Math.min(force, free.get(name) ?? Infinity));
    }
    return free.has(mode) ? [outcomeOf(mode, candidate, free, errors, grip, simulations, wanted)] : [];
  });
  const reached = choices.filter((one) => one.reached);
  const best = (list: readonly SpecimenChoice[], better: (a: SpecimenChoice, b: SpecimenChoice) => boolean): SpecimenChoice | null => list.reduce<SpecimenChoice | null>((found, one) => (found === null || better(one, found) ? one : found), null);
  return reached.length > 0 ? best(reached, (a, b) => a.load_kN < b.load_kN) : best(choices, (a, b) => a.probability > b.probability);
}

const SHEAR_MODES = ["concrete_edge_breakout", "pryout", "bar_shear"];
const SHARED_CONCRETE = ["concrete_breakout", "pryout"];

function candidatesFor(mode: string, template: TestRowInput, settings: SpecimenSettings): TestRowInput[] {
  const shear = SHEAR_MODES.includes(mode);
  // A bar bonded in over less than 8 diameters would add its embedment to what the edge is to show.
  const { embedments = mode === "concrete_edge_breakout" ? [8, 10, 12] : [4, 5, 6, 7, 8, 10, 12, 15], edges = [4, 5, 6, 8], spacings = [4, 6] } = settings;
  const onGrid = (diameters: number): number => 5 * Math.ceil((diameters * template.bar_diameter_mm) / 5);
  const places: readonly { edge: number | null; spacing: number | null }[] =
    mode === "concrete_edge_breakout" ? edges.map((edge) => ({ edge, spacing: null })) : [null, ...(SHARED_CONCRETE.includes(mode) ? spacings : [])].map((spacing) => ({ edge: null, spacing }));
  return embedments.flatMap((embedment) => places.map(({ edge, spacing }): TestRowInput => {
    const [h, c, s] = [onGrid(embedment), edge === null ? null : onGrid(edge), spacing === null ? null : onGrid(spacing)];
    const side = s === null ? null : 2;
    return {
      ...template, test_id: `${mode} ${embedment} ${edge ?? "far"} ${spacing ?? "single"}`, action: shear ? "shear" : "tension", setup: shear ? "direct_shear" : "unconfined_tension", embedment_mm: h, edge_1_mm: c, edge_2_mm: null, edge_3_mm: null, edge_4_mm: null,
      group_nx: side, group_ny: side, spacing_x_mm: s, spacing_y_mm: s, member_thickness_mm: Math.max(200, 50 * Math.ceil(Math.max(h + 2 * (template.hole_diameter_mm ?? template.bar_diameter_mm), 1.5 * (c ?? 0)) / 50)), excluded: null,
    };
  }));
}

interface ModelErrors {
  /** Draws of test/predicted of a mode, the same for every candidate so that candidates differ by geometry alone. */
  draws(mode: string): Float64Array;
  readonly assumed: ReadonlySet<string>;
}

function modelErrors(comparison: Comparison, material: string, seed: number | string, simulations: number): ModelErrors {
  const known = new Map<string, Float64Array>();
  const assumed = new Set<string>();
  const materials = comparison.tests.texts("bar_material");
  return {
    assumed,
    draws: (mode) => {
      const found = known.get(mode);
      if (found) return found;
      const model = ratioModelOf(comparison.evidence.filter((one) => (one.mode as string) === mode && materials[one.row] === material), () => "", "lognormal");
      if (!model) assumed.add(mode);
      const { location, scale } = model ?? { location: -0.5 * Math.log1p(ASSUMED_COV ** 2), scale: Math.sqrt(Math.log1p(ASSUMED_COV ** 2)) };
      const random = createRandom(seed).fork(mode);
      const draws = Float64Array.from({ length: simulations }, () => Math.exp(location + scale * random.normal()));
      known.set(mode, draws);
      return draws;
    },
  };
}

/** Draws of the grip's breaking load over the bar's strength, from the tests that the comparison judges; null where no grip broke. */
function gripShares({ tests, evidence }: Comparison, material: string, seed: number | string, simulations: number): Float64Array | null {
  const rows = [...new Set(evidence.map(({ row }) => row))].sort((a, b) => a - b).filter((row) => tests.text(row, "bar_material") === material && tests.text(row, "action") === "tension");
  const shares = rows.map((row) => barShare(tests, row));
  const usable = rows.map((_, k) => k).filter((k) => Number.isFinite(shares[k]));
  const broke = usable.map((k) => tests.text(rows[k] ?? 0, "failure_mode") === "rupture_at_grip");
  if (!broke.some(Boolean)) return null;
  const steps = stepsOf(Float64Array.from(usable, (k) => shares[k] ?? NaN), Uint8Array.from(broke, (one) => (one ? 0 : 1)), 1).filter(({ failures }) => failures > 0);
  const random = createRandom(seed).fork("grip");
  return Float64Array.from({ length: simulations }, () => limitAbove(steps, -Infinity, random.uniform()));
}

function barShare(tests: TestTable, row: number): number {
  const bars = (tests.number(row, "group_nx") || 1) * (tests.number(row, "group_ny") || 1);
  return (1000 * tests.number(row, "peak_load_kN")) / (bars * tests.number(row, "bar_area_mm2") * tests.number(row, "bar_strength_MPa"));
}

function outcomeOf(mode: string, candidate: TestRowInput, free: ReadonlyMap<string, number>, errors: ModelErrors, grip: Float64Array | null, simulations: number, wanted: number): SpecimenChoice {
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
  const rival = [...counts.keys()].filter((name) => name !== mode).sort((a, b) => share(b) - share(a))[0] ?? "none";
  return {
    mode, setup: candidate.setup, embedment_mm: candidate.embedment_mm, edge_1_mm: candidate.edge_1_mm ?? null, bars, spacing_mm: candidate.spacing_x_mm ?? null, probability: share(mode), rival, rivalProbability: share(rival), load_kN: sum / simulations / 1000,
    reached: share(mode) >= wanted, assumed: names.filter((name) => errors.assumed.has(name))
  };
}
