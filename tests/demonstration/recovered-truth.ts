import {
  generateDemonstration,
  meanBond,
  meanBreakout,
  meanCastInBond,
  meanEdgeBreakout,
  TRUTH,
  type BarKind,
  type Specimen,
} from "../../kernel-lib/src/demonstration";
import type { TestRowInput } from "../../kernel-lib/src/dataset";

/**
 * The modes whose factor can be recovered, with where they can occur and the mean for a bar kind
 * without deviations.
 */
export const RECOVERABLE = {
  concrete_breakout: {
    factor: (kind: BarKind) => kind.breakout,
    possible: (t: TestRowInput) => t.setup === "unconfined_tension",
    mode: "concrete_breakout",
    mean: meanBreakout,
  },
  bond: {
    factor: (kind: BarKind) => kind.bond,
    possible: (t: TestRowInput) => t.installation === "post_installed" && t.action === "tension",
    mode: "bond",
    mean: (s: Specimen, t: TestRowInput) => meanBond(s, t.setup === "confined_tension"),
  },
  cast_in_bond: {
    factor: (kind: BarKind) => kind.castInBond,
    possible: (t: TestRowInput) => t.installation === "cast_in",
    mode: "bond",
    mean: meanCastInBond,
  },
  edge_breakout: {
    factor: (kind: BarKind) => kind.edgeBreakout,
    possible: (t: TestRowInput) => t.action === "shear" && (t.edge_1_mm ?? null) !== null,
    mode: "concrete_edge_breakout",
    mean: meanEdgeBreakout,
  },
} as const;
export type Recoverable = keyof typeof RECOVERABLE;

export interface Recovered {
  readonly kind: BarKind;
  readonly mode: Recoverable;
  readonly truth: number;
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

interface Observation {
  readonly y: number;
  readonly censored: boolean;
  readonly series: string;
  readonly study: string;
}

/**
 * The specimen as a reader of the table would rebuild it, with a bar kind whose factors are all
 * one.
 */
function specimenFromRow(t: TestRowInput, kind: BarKind): Specimen {
  const far = (edge: number | null | undefined): number => edge ?? Infinity;
  return {
    kind: { ...kind, breakout: 1, bond: 1, castInBond: 1, edgeBreakout: 1, pryout: 1 },
    diameter: t.bar_diameter_mm,
    area: t.bar_area_mm2 ?? NaN,
    tensileStrength: t.bar_strength_MPa ?? NaN,
    shearStrength: t.bar_shear_strength_MPa ?? NaN,
    adhesive: t.adhesive === "P" || t.adhesive === "Q" ? TRUTH.adhesives[t.adhesive] : null,
    concrete: t.concrete_strength_MPa,
    cracked: t.cracked === "yes",
    embedment: t.embedment_mm,
    thickness: t.member_thickness_mm ?? NaN,
    edges: [far(t.edge_1_mm), far(t.edge_2_mm), far(t.edge_3_mm), far(t.edge_4_mm)],
    nx: t.group_nx ?? 1,
    ny: t.group_ny ?? 1,
    sx: t.spacing_x_mm ?? 0,
    sy: t.spacing_y_mm ?? 0,
    cover: t.cover_mm ?? Infinity,
  };
}

/** Factors of every bar kind and mode, recovered from the rows of one seed, with 95 % intervals. */
export function recoverTruth(seed: number): Recovered[] {
  const { tests } = generateDemonstration(seed);
  const found: Recovered[] = [];
  for (const kind of TRUTH.barKinds) {
    for (const mode of Object.keys(RECOVERABLE) as Recoverable[]) {
      const { factor, possible, mode: observed, mean } = RECOVERABLE[mode];
      const data = tests
        .filter(
          (t) =>
            (t.excluded ?? null) === null &&
            t.bar_material === kind.material &&
            t.bar_surface === kind.surface &&
            possible(t),
        )
        .map((t): Observation => ({
          y: Math.log((1000 * t.peak_load_kN) / mean(specimenFromRow(t, kind), t)),
          censored: t.failure_mode !== observed,
          series: t.series_id,
          study: t.study_id,
        }));
      // Each mode's log factor: the mean of log-normals with mean 1 lies half their variance lower.
      const within = Math.log1p(TRUTH.withinSeriesCov[observed] ** 2);
      const shift = (within + Math.log1p(TRUTH.betweenSeriesCov ** 2)) / 2;
      const { estimate, error, degrees } = acrossStudies(data);
      const half = tQuantile975(degrees) * error;
      found.push({
        kind,
        mode,
        truth: factor(kind),
        estimate: Math.exp(estimate + shift),
        low: Math.exp(estimate + shift - half),
        high: Math.exp(estimate + shift + half),
      });
    }
  }
  return found;
}

/**
 * Mean over the two studies (whose factors are inverse, so that they cancel) with a jackknife over
 * series.
 */
function acrossStudies(data: ReadonlyArray<Observation>): {
  estimate: number;
  error: number;
  degrees: number;
} {
  const parts = [...new Set(data.map(({ study }) => study))].map((study) => {
    const own = data.filter((o) => o.study === study);
    const whole = censoredNormal(own, null);
    const series = [...new Set(own.map((o) => o.series))];
    const without = series.map(
      (left) =>
        censoredNormal(
          own.filter((o) => o.series !== left),
          whole,
        ).mu,
    );
    const mean = without.reduce((a, b) => a + b, 0) / series.length;
    const variance =
      ((series.length - 1) / series.length) * without.reduce((a, b) => a + (b - mean) ** 2, 0);
    return { mu: whole.mu, variance, degrees: series.length - 1 };
  });
  const total = parts.reduce((a, { variance }) => a + variance, 0);
  // Satterthwaite's degrees of freedom.
  const degrees =
    total ** 2 / parts.reduce((a, { variance, degrees: d }) => a + variance ** 2 / d, 0);
  return {
    estimate: parts.reduce((a, { mu }) => a + mu, 0) / parts.length,
    error: Math.sqrt(total) / parts.length,
    degrees,
  };
}

/**
 * Maximum likelihood of a normal sample with right-censored values, by expectation and
 * maximisation.
 */
function censoredNormal(
  data: ReadonlyArray<Observation>,
  start: { mu: number; sigma: number } | null,
): { mu: number; sigma: number } {
  let { mu, sigma } = start ?? {
    mu: data.reduce((a, { y }) => a + y, 0) / data.length,
    sigma: 0.15,
  };
  for (let step = 0; step < 500; step += 1) {
    let sum = 0;
    let squares = 0;
    for (const { y, censored } of data) {
      const z = (y - mu) / sigma;
      const hazard = censored ? normalHazard(z) : 0;
      const m = censored ? mu + sigma * hazard : y;
      sum += m;
      squares += censored ? sigma ** 2 * (1 + z * hazard - hazard ** 2) + m ** 2 : y ** 2;
    }
    const next = sum / data.length;
    const nextSigma = Math.sqrt(Math.max(1e-8, squares / data.length - next ** 2));
    const moved = Math.abs(next - mu) + Math.abs(nextSigma - sigma);
    [mu, sigma] = [next, nextSigma];
    if (moved < 1e-6) break;
  }
  return { mu, sigma };
}

/**
 * phi(z) / (1 - Phi(z)), by its continued fraction in the tail and by the error-function series
 * elsewhere.
 */
function normalHazard(z: number): number {
  if (z > 2) {
    let fraction = 0;
    for (let k = 60; k >= 1; k -= 1) fraction = k / (z + fraction);
    return z + fraction;
  }
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < -8) return density;
  let term = z;
  let series = z;
  for (let k = 1; k < 200 && Math.abs(term) > 1e-17; k += 1) {
    term *= (-z * z * (2 * k - 1)) / (2 * k * (2 * k + 1));
    series += term;
  }
  return density / (0.5 - series / Math.sqrt(2 * Math.PI));
}

/**
 * 97.5 % quantile of Student's t (Hill's expansion around the normal; from memory, good to 0.5 %
 * above 3 degrees).
 */
function tQuantile975(degrees: number): number {
  const z = 1.959963984540054;
  const d = degrees;
  return (
    z +
    (z ** 3 + z) / (4 * d) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * d ** 2) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * d ** 3)
  );
}
