import type { FailureMode, Grip, Study, TestRowInput } from "../dataset";
import { createRandom } from "../statistics/random";
import { plannedCampaign, type PlannedSeries } from "./campaign";
import { gripOfSeries, withGrip } from "./grips";
import {
  meanBarShear,
  meanBond,
  meanBreakout,
  meanCastInBond,
  meanEdgeBreakout,
  meanPryout,
  meanRupture,
  meanSplitting,
  type Specimen,
} from "./mean-capacity";
import { BAR_SIZES, barStrengths, TRUTH, type TrueMode } from "./truth";

type Random = ReturnType<typeof createRandom>;

/**
 * The invented campaign: its tests and studies, the truth it came from, and why tests were
 * excluded.
 */
export interface Demonstration {
  readonly seed: number | string;
  readonly tests: ReadonlyArray<TestRowInput>;
  readonly studies: ReadonlyArray<Study>;
  readonly truth: typeof TRUTH;
  /** Factor of each laboratory on the concrete and bond modes, by study_id. */
  readonly studyFactors: Readonly<Record<string, number>>;
  readonly excludedNotes: ReadonlyArray<{ readonly test_id: string; readonly reason: string }>;
}

const LABORATORIES = [
  { study_id: "demo-north-mole", short: "NM", name: "North Mole laboratory (invented)" },
  { study_id: "demo-inner-harbour", short: "IH", name: "Inner Harbour laboratory (invented)" },
] as const;

/** Invented mishaps, each with what it does to the recorded load. */
const MISHAPS: ReadonlyArray<{
  readonly reason: string;
  readonly factor: number;
  readonly tensionOnly: boolean;
}> = [
  { reason: "drill hole was not cleaned", factor: 0.55, tensionOnly: true },
  { reason: "load cell drifted during the test", factor: 1.2, tensionOnly: false },
  {
    reason: "adhesive was still soft: tested before its curing time",
    factor: 0.5,
    tensionOnly: true,
  },
  { reason: "the concrete had a crack that was not planned", factor: 0.75, tensionOnly: false },
  { reason: "the bar leaned by more than 5 degrees", factor: 0.85, tensionOnly: false },
  { reason: "the support stood within the expected breakout", factor: 1.25, tensionOnly: false },
  { reason: "loading was halted for an hour by a pump failure", factor: 0.95, tensionOnly: false },
  { reason: "peak read from the dial only; the record was lost", factor: 1, tensionOnly: false },
];

/** A log-normal factor with mean 1 and the given coefficient of variation. */
function scatter(random: Random, cov: number): number {
  const variance = Math.log1p(cov * cov);
  return Math.exp(Math.sqrt(variance) * random.normal() - variance / 2);
}

const isBarMode = (mode: TrueMode): boolean =>
  mode === "bar_rupture" || mode === "rupture_at_grip" || mode === "bar_shear";

/** Mean capacity in N of every mode that can occur in a series. */
export function competingModes(
  series: PlannedSeries,
  specimen: Specimen,
): ReadonlyMap<TrueMode, number> {
  const modes = new Map<TrueMode, number>();
  if (series.setup === "direct_shear") {
    modes.set("bar_shear", meanBarShear(specimen));
    modes.set("pryout", meanPryout(specimen));
    if (Number.isFinite(specimen.edges[0]))
      modes.set("concrete_edge_breakout", meanEdgeBreakout(specimen));
    return modes;
  }
  modes.set("bar_rupture", meanRupture(specimen));
  if (series.poorGrip) modes.set("rupture_at_grip", TRUTH.gripShare * meanRupture(specimen));
  if (series.adhesive === null) {
    modes.set("bond", meanCastInBond(specimen));
    modes.set("splitting", meanSplitting(specimen));
  } else {
    modes.set("bond", meanBond(specimen, series.setup === "confined_tension"));
    if (series.setup === "unconfined_tension")
      modes.set("concrete_breakout", meanBreakout(specimen));
  }
  return modes;
}

/**
 * The specimen of a planned series, with its concrete; lengths rounded to 5 mm as one would set
 * them out.
 */
export function specimenOf(series: PlannedSeries, concrete: number): Specimen {
  const kind = TRUTH.barKinds[series.kind];
  const size = BAR_SIZES[series.size];
  if (kind === undefined || size === undefined)
    throw new RangeError(
      `no bar kind ${String(series.kind)} or size ${String(series.size)}: expected 0 to 3 and 0 to 4`,
    );
  const strengths = barStrengths(kind, size);
  const d = size.diameter_mm;
  const onGrid = (diameters: number): number => 5 * Math.round((diameters * d) / 5);
  // 4 diameters are the least embedment: round up there, never below.
  const embedment =
    5 * Math.ceil((series.embedment * d - 2.5) / 5) < 4 * d
      ? 5 * Math.ceil((4 * d) / 5)
      : onGrid(series.embedment);
  const edge = series.edge === null ? Infinity : onGrid(series.edge);
  const castIn = series.adhesive === null;
  const nearEdge =
    !castIn && series.layout !== "field" && series.layout !== "pair" && series.layout !== "four";
  const c1 = nearEdge ? edge : Infinity;
  return {
    kind,
    diameter: d,
    area: size.area_mm2,
    tensileStrength: strengths.mean,
    shearStrength: strengths.shear,
    adhesive: series.adhesive === null ? null : TRUTH.adhesives[series.adhesive],
    concrete,
    cracked: series.cracked,
    embedment,
    thickness: Math.max(
      200,
      50 * Math.ceil(Math.max(embedment + 2 * (d + 4), nearEdge ? 1.5 * edge : 0) / 50),
    ),
    edges: [c1, series.layout === "corner" ? edge : Infinity, Infinity, Infinity],
    nx: series.layout === "four" ? 2 : 1,
    ny:
      series.layout === "four" || series.layout === "pair" || series.layout === "pair_at_edge"
        ? 2
        : 1,
    sx: series.layout === "four" ? onGrid(series.spacing ?? 0) : 0,
    sy: series.spacing === null ? 0 : onGrid(series.spacing),
    cover: castIn ? edge : Infinity,
  };
}

/**
 * Generates the invented campaign: bars bonded into an old breakwater wall to carry a new parapet,
 * tested by two invented laboratories. Each specimen's load is the least of independently scattered
 * capacities of its possible modes, and its failure mode is the one that gave the least; so every
 * other mode is only known to be stronger (right-censored). The same seed gives the same rows.
 * Another plan of as many series keeps every draw: without poor grips the same specimens show what
 * they would have carried in a better one.
 * @example generateDemonstration(2026).tests.length
 */
export function generateDemonstration(
  seed: number | string,
  plan: readonly PlannedSeries[] = plannedCampaign(),
): Demonstration {
  const random = createRandom(seed).fork("breakwater parapet");
  const studyFactor = Math.exp(
    Math.sqrt(Math.log1p(TRUTH.studyCov ** 2)) * random.fork("laboratories").normal(),
  );
  const factors = [studyFactor, 1 / studyFactor] as const;
  const tests: TestRowInput[] = [];
  const turn = new Map<string, number>();
  // A stream of its own: grips are drawn without moving any other value.
  const grips = createRandom(seed).fork("grips");
  const gripOf = new Map<string, Grip | null>();
  for (const [index, series] of plan.entries()) {
    // Laboratories take turns within each set-up and kind of bar, so that both meet every mode.
    const group = `${series.setup} ${String(series.kind)}`;
    const count = turn.get(group) ?? series.kind % 2;
    turn.set(group, count + 1);
    const own = testsOfSeries(
      series,
      index,
      count % 2 === 0 ? 0 : 1,
      factors,
      random.fork(`series ${String(index + 1)}`),
    );
    tests.push(...own);
    if (own[0])
      gripOf.set(
        own[0].series_id,
        gripOfSeries(
          series,
          competingModes(series, specimenOf(series, own[0].concrete_strength_MPa)),
          grips.fork(`series ${String(index + 1)}`),
        ),
      );
  }
  const excludedNotes = exclude(tests, random.fork("mishaps"));
  const gripped = tests.map((test) => withGrip(test, gripOf.get(test.series_id) ?? null));
  return {
    seed,
    tests: gripped,
    studies: invented(),
    truth: TRUTH,
    studyFactors: {
      [LABORATORIES[0].study_id]: factors[0],
      [LABORATORIES[1].study_id]: factors[1],
    },
    excludedNotes,
  };
}

function testsOfSeries(
  series: PlannedSeries,
  index: number,
  laboratory: 0 | 1,
  factors: readonly [number, number],
  random: Random,
): TestRowInput[] {
  const { study_id, short } = LABORATORIES[laboratory];
  const concrete =
    Math.round(
      10 * (22 + (series.weakConcrete ? 6 : 38) * random.fork("concrete").uniform() ** 1.3),
    ) / 10;
  const specimen = specimenOf(series, concrete);
  const modes = [...competingModes(series, specimen)].map(([mode, mean]) => {
    const ofSeries = isBarMode(mode)
      ? 1
      : factors[laboratory] * scatter(random.fork(`series factor ${mode}`), TRUTH.betweenSeriesCov);
    return { mode, mean: mean * ofSeries, draws: random.fork(mode) };
  });
  const replicates = [3, 3, 4, 4, 5, 5, 6, 6, 8, 10][random.fork("number").integer(10)] ?? 5;
  const series_id = `${short}-${String(index + 1).padStart(3, "0")}`;
  const slips = random.fork("slip");
  return Array.from({ length: replicates }, (_, i): TestRowInput => {
    let load = TRUTH.jackCapacity_kN * 1000;
    let failure: FailureMode = "stopped";
    for (const { mode, mean, draws } of modes) {
      const cov =
        specimen.kind.material === "steel" && isBarMode(mode) ? 0.02 : TRUTH.withinSeriesCov[mode];
      const capacity = mean * scatter(draws, cov);
      if (capacity < load) [load, failure] = [capacity, mode];
    }
    const slip =
      series.setup === "direct_shear"
        ? null
        : Math.round(100 * 1.1 * Math.sqrt(specimen.diameter / 16) * scatter(slips, 0.2)) / 100;
    return rowOf(series, specimen, {
      test_id: `${series_id}-${String(i + 1)}`,
      study_id,
      series_id,
      load,
      failure,
      slip,
    });
  });
}

function rowOf(
  series: PlannedSeries,
  specimen: Specimen,
  outcome: {
    test_id: string;
    study_id: string;
    series_id: string;
    load: number;
    failure: FailureMode;
    slip: number | null;
  },
): TestRowInput {
  const size = BAR_SIZES[series.size];
  if (size === undefined)
    throw new RangeError(`no bar size ${String(series.size)}: expected 0 to 4`);
  const { kind, adhesive, cracked } = specimen;
  const strengths = barStrengths(kind, size);
  const isGroup = specimen.nx * specimen.ny > 1;
  const near = (distance: number): number | null => (Number.isFinite(distance) ? distance : null);
  return {
    test_id: outcome.test_id,
    study_id: outcome.study_id,
    series_id: outcome.series_id,
    replicates: 1,
    bar_material: kind.material,
    bar_surface: kind.surface,
    bar_size: size.label,
    bar_diameter_mm: size.diameter_mm,
    bar_area_mm2: size.area_mm2,
    diameter_basis: "nominal",
    bar_strength_MPa: strengths.mean,
    bar_strength_specified_MPa: strengths.specified,
    bar_yield_MPa: strengths.yield,
    bar_shear_strength_MPa: Math.round(10 * strengths.shear) / 10,
    bar_shear_strength_specified_MPa: strengths.shearSpecified,
    bar_modulus_GPa: kind.modulus_GPa,
    installation: adhesive === null ? "cast_in" : "post_installed",
    adhesive: series.adhesive,
    hole_diameter_mm: adhesive === null ? null : Math.ceil(size.diameter_mm + 4),
    bond_strength_char_MPa:
      adhesive === null ? null : cracked ? adhesive.charCracked : adhesive.charUncracked,
    bond_strength_uncracked_char_MPa: adhesive?.charUncracked ?? null,
    concrete_strength_MPa: specimen.concrete,
    concrete_strength_basis: "cylinder",
    concrete_type: "normal",
    lightweight_factor: 1,
    cracked: cracked ? "yes" : "no",
    crack_width_mm: cracked ? 0.3 : null,
    embedment_mm: specimen.embedment,
    member_thickness_mm: specimen.thickness,
    edge_1_mm: near(specimen.edges[0]),
    edge_2_mm: near(specimen.edges[1]),
    edge_3_mm: null,
    edge_4_mm: null,
    group_nx: isGroup ? specimen.nx : null,
    group_ny: isGroup ? specimen.ny : null,
    spacing_x_mm: specimen.nx > 1 ? specimen.sx : null,
    spacing_y_mm: specimen.ny > 1 ? specimen.sy : null,
    casting_position: adhesive === null ? "good" : null,
    cover_mm: near(specimen.cover),
    setup: series.setup,
    action: series.setup === "direct_shear" ? "shear" : "tension",
    peak_load_kN: Math.round(outcome.load / 100) / 10,
    slip_at_peak_mm: outcome.slip,
    failure_mode: outcome.failure,
    extra: {
      bar_family: kind.family,
      layout: series.adhesive === null ? "bond_specimen" : series.layout,
    },
  };
}

/** Lets each mishap befall one test, changing its load and naming the reason. */
function exclude(
  tests: TestRowInput[],
  random: Random,
): Array<{ test_id: string; reason: string }> {
  const notes: Array<{ test_id: string; reason: string }> = [];
  for (const { reason, factor, tensionOnly } of MISHAPS) {
    for (;;) {
      const i = random.integer(tests.length);
      const test = tests[i];
      if (
        test === undefined ||
        (test.excluded ?? null) !== null ||
        (tensionOnly && (test.action !== "tension" || test.installation !== "post_installed"))
      )
        continue;
      tests[i] = {
        ...test,
        peak_load_kN: Math.round(10 * factor * test.peak_load_kN) / 10,
        excluded: reason,
      };
      notes.push({ test_id: test.test_id, reason });
      break;
    }
  }
  return notes;
}

function invented(): Study[] {
  return LABORATORIES.map(({ study_id, name }) => ({
    study_id,
    provenance: "demo",
    citation: `Breakwater parapet campaign, ${name}. Invented data, generated from a stated truth.`,
    doi: null,
    year: null,
    licence: "free to use; invented",
    transcription: "generated",
    remarks: "INVENTED: proves nothing about real bars",
  }));
}
