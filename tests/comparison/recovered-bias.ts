import { compare, type Evidence } from "../../kernel-lib/src/comparison";
import { TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration, TRUTH, type BarKind } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { fitCensored, studentT } from "../../kernel-lib/src/statistics";
import { MM_PER_INCH, MPA_PER_PSI, N_PER_LBF } from "../../kernel-lib/src/units";

export type StudiedMode = "concrete_breakout" | "concrete_edge_breakout" | "bond";
export interface RecoveredBias {
  readonly mode: StudiedMode;
  readonly kind: BarKind;
  readonly truth: number;
  readonly estimate: number;
  /** Standard error of ln(estimate). */ readonly error: number;
  readonly degrees: number;
}

// lb, in., psi to N, mm, MPa for k sqrt(f) h^1.5 and for k sqrt(d) sqrt(f) c^1.5.
const perRootPsi = N_PER_LBF / Math.sqrt(MPA_PER_PSI);
const MEAN_BREAKOUT = (35 * perRootPsi) / MM_PER_INCH ** 1.5;
const MEAN_EDGE_BREAKOUT = (13 * perRootPsi) / MM_PER_INCH ** 2;

/** The true mean ratio of a kind of bar to the model it is compared with. */
const TRUE_RATIO: Readonly<Record<StudiedMode, (kind: BarKind) => number>> = {
  concrete_breakout: (kind) => (kind.breakout * TRUTH.breakoutCoefficient) / MEAN_BREAKOUT,
  concrete_edge_breakout: (kind) =>
    (kind.edgeBreakout * TRUTH.edgeBreakoutCoefficient) / MEAN_EDGE_BREAKOUT,
  bond: (kind) => kind.bond,
};

/**
 * The row with the adhesive's mean bond stress in place of its characteristic one, so that the
 * nominal bond load is a mean one.
 */
function withMeanBondStress(row: TestRowInput): TestRowInput {
  const adhesive =
    row.adhesive === "P" || row.adhesive === "Q" ? TRUTH.adhesives[row.adhesive] : null;
  return adhesive
    ? {
        ...row,
        bond_strength_char_MPa:
          row.cracked === "yes" ? adhesive.meanCracked : adhesive.meanUncracked,
      }
    : row;
}

/**
 * ACI 318-19 reaches as far to edges and neighbours as the campaign's truth does, c_Na = 10 d
 * sqrt(tau_uncr / 7.6 MPa), but also lowers bond near edges of uncracked members against splitting,
 * which the truth does not: those rows stay out.
 */
const comparable = (row: TestRowInput): boolean =>
  row.installation === "post_installed" &&
  (row.cracked === "yes" ||
    [row.edge_1_mm, row.edge_2_mm, row.edge_3_mm, row.edge_4_mm].every(
      (edge) => (edge ?? null) === null,
    ));

/** One ratio to the model of means, with where it comes from. */
export interface StudiedRatio {
  readonly value: number;
  readonly bound: boolean;
  readonly series: string;
  readonly study: string;
}
/**
 * The ratios of one kind of bar in one mode, of one seed of the campaign, with the true mean ratio.
 */
export interface StudiedGroup {
  readonly mode: StudiedMode;
  readonly kind: BarKind;
  readonly truth: number;
  /** ln of the factor of the first laboratory; the second has its inverse. */ readonly laboratory: number;
  readonly ratios: readonly StudiedRatio[];
}

/**
 * The ratios of every kind of bar in every mode, through the comparison, of one seed of the
 * campaign.
 */
export function studiedGroups(seed: number): StudiedGroup[] {
  const drawn = generateDemonstration(seed);
  const rows = drawn.tests.map(withMeanBondStress);
  const laboratory = Math.log(Object.values(drawn.studyFactors)[0] ?? NaN);
  const tests = TestTable.fromRows(rows);
  const settings = { level: "expected", lowerBounds: "used" } as const;
  const concrete = compare(tests, code("ccd-1995"), settings).evidence;
  const bond = compare(tests, code("aci318-19"), {
    ...settings,
    level: "nominal",
    confinedBondFactor: TRUTH.confinedSetUp,
  }).evidence;
  const evidence: Readonly<Record<StudiedMode, readonly Evidence[]>> = {
    concrete_breakout: concrete.filter(({ mode }) => mode === "concrete_breakout"),
    concrete_edge_breakout: concrete.filter(({ mode }) => mode === "concrete_edge_breakout"),
    bond: bond.filter(({ mode, row }) => mode === "bond" && comparable(rows[row]!)),
  };
  return TRUTH.barKinds.flatMap((kind) =>
    (Object.keys(evidence) as StudiedMode[]).map((mode) => {
      const own = evidence[mode].filter(
        ({ row }) =>
          rows[row]!.bar_material === kind.material && rows[row]!.bar_surface === kind.surface,
      );
      // The stated size effect of bond is taken out, so that one number is the bias of all sizes.
      const size = (row: number): number =>
        mode === "bond" ? (16 / rows[row]!.bar_diameter_mm) ** kind.bondSizeExponent : 1;
      return {
        mode,
        kind,
        truth: TRUE_RATIO[mode](kind),
        laboratory,
        ratios: own.map(({ row, ratio, bound }) => ({
          value: ratio / size(row),
          bound,
          series: rows[row]!.series_id,
          study: rows[row]!.study_id,
        })),
      };
    }),
  );
}

/**
 * The bias of every kind of bar in every mode, through the comparison, of one seed of the campaign.
 */
export function recoveredBias(seed: number): RecoveredBias[] {
  return biasOf(studiedGroups(seed));
}

/** The same of groups at hand. */
export function biasOf(groups: readonly StudiedGroup[]): RecoveredBias[] {
  return groups.map(({ mode, kind, truth, ratios }) => ({
    mode,
    kind,
    truth,
    ...acrossStudies(ratios),
  }));
}

const logMean = (sample: readonly StudiedRatio[]): number => {
  const fit = fitCensored({
    values: sample.map(({ value }) => value),
    censored: sample.map(({ bound }) => bound),
    distribution: "lognormal",
  });
  if (fit.status !== "ok") throw new Error(fit.reading);
  return Math.log(fit.mean);
};

/**
 * Mean of the fitted log-normal, mu + s^2/2 on the log scale with s holding the scatter within and
 * between series, for each laboratory, then averaged over the two, whose factors f and 1/f cancel
 * on the log scale. Error and small-sample bias are by the jackknife over series: with ten or so
 * series, most of them censored, the sandwich error is too small (52 of 60 intervals held the
 * truth).
 */
function acrossStudies(data: readonly StudiedRatio[]): {
  estimate: number;
  error: number;
  degrees: number;
} {
  const parts = [...new Set(data.map(({ study }) => study))].map((study) => {
    const own = data.filter((one) => one.study === study);
    const all = [...new Set(own.map(({ series }) => series))];
    const whole = logMean(own);
    const without = all.map((left) => logMean(own.filter(({ series }) => series !== left)));
    const mean = without.reduce((a, b) => a + b, 0) / all.length;
    const variance =
      ((all.length - 1) / all.length) * without.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    return { log: all.length * whole - (all.length - 1) * mean, variance, degrees: all.length - 1 };
  });
  const total = parts.reduce((sum, { variance }) => sum + variance, 0);
  return {
    estimate: Math.exp(parts.reduce((sum, { log }) => sum + log, 0) / parts.length),
    error: Math.sqrt(total) / parts.length,
    degrees:
      total ** 2 / parts.reduce((sum, { variance, degrees }) => sum + variance ** 2 / degrees, 0), // Welch and Satterthwaite
  };
}

/**
 * Deviation of a mode's log bias, averaged over the kinds of bar, and the half width of its 95 %
 * interval.
 */
export function deviationOf(
  all: readonly RecoveredBias[],
  mode: StudiedMode,
): { deviation: number; half: number } {
  const own = all.filter((one) => one.mode === mode);
  const variances = own.map(({ error }) => error ** 2);
  const total = variances.reduce((a, b) => a + b, 0);
  const degrees =
    total ** 2 / own.reduce((sum, { degrees: d }, k) => sum + variances[k]! ** 2 / d, 0);
  return {
    deviation:
      own.reduce((sum, { estimate, truth }) => sum + Math.log(estimate / truth), 0) / own.length,
    half: (studentT(degrees).quantile(0.975) * Math.sqrt(total)) / own.length,
  };
}
