import { gumbel, lognormal, normal, type Distribution } from "../../statistics";

/** Kind of marginal distribution given by its mean and coefficient of variation. */
export type MarginalKind = "normal" | "lognormal" | "gumbel";

/** Statistics of one load: mean over nominal, coefficient of variation, distribution and source. */
export interface LoadStatistics {
  readonly meanOverNominal: number;
  readonly cov: number;
  readonly kind: MarginalKind;
  readonly meaning: string;
  readonly source: string;
}

/** A source of load statistics: dead load and the variable loads. */
export interface LoadModel {
  readonly id: string;
  readonly title: string;
  readonly dead: LoadStatistics;
  readonly variable: Readonly<Record<"live" | "snow" | "wind", LoadStatistics>>;
}

const load = (
  meanOverNominal: number,
  cov: number,
  kind: MarginalKind,
  meaning: string,
  source: string,
): LoadStatistics => ({ meanOverNominal, cov, kind, meaning, source });
const ELLINGWOOD = "Ellingwood, Galambos, MacGregor, Cornell 1980, NBS Special Publication 577";
const NOWAK = "Nowak and Szerszen 2003, ACI Structural Journal 100(3), 377-382";

/**
 * Load statistics as published; the distributions of the variable loads are extreme values of
 * largest, the usual choice.
 */
export const LOAD_MODELS: readonly LoadModel[] = [
  {
    id: "nowak-2003",
    title: NOWAK,
    dead: load(1.05, 0.1, "normal", "dead load, cast in place", NOWAK),
    variable: {
      live: load(1.0, 0.18, "gumbel", "live load, 50-year maximum", NOWAK),
      snow: load(0.82, 0.26, "gumbel", "snow, 50-year maximum", NOWAK),
      wind: load(0.78, 0.37, "gumbel", "wind, 50-year maximum", NOWAK),
    },
  },
  {
    id: "ellingwood-1980",
    title: ELLINGWOOD,
    dead: load(1.05, 0.1, "normal", "dead load", ELLINGWOOD),
    variable: {
      live: load(1.0, 0.25, "gumbel", "live load, 50-year maximum", ELLINGWOOD),
      snow: load(0.82, 0.26, "gumbel", "snow, 50-year maximum", ELLINGWOOD),
      wind: load(0.78, 0.37, "gumbel", "wind, 50-year maximum", ELLINGWOOD),
    },
  },
];

/** The load model of an id. @throws Error listing the ids there are */
export function loadModel(id: string): LoadModel {
  const found = LOAD_MODELS.find((one) => one.id === id);
  if (!found)
    throw new Error(
      `No load model "${id}"; expected one of ${LOAD_MODELS.map((one) => one.id).join(", ")}.`,
    );
  return found;
}

/** Load factors of the combinations looked at; design strength must meet the largest of them. */
export interface LoadCombination {
  readonly says: string;
  readonly dead: number;
  readonly variable: number;
}

/** 1.2D + 1.6L and 1.4D, as in the American loading standard (ASCE/SEI 7, strength design). */
export const COMBINATIONS: readonly LoadCombination[] = [
  { says: "1.4D", dead: 1.4, variable: 0 },
  { says: "1.2D + 1.6L", dead: 1.2, variable: 1.6 },
];

/** Factored load for nominal loads D and L: the largest of the combinations. */
export function factoredLoad(
  dead: number,
  variable: number,
  combinations: readonly LoadCombination[] = COMBINATIONS,
): number {
  return combinations.reduce(
    (largest, one) => Math.max(largest, one.dead * dead + one.variable * variable),
    -Infinity,
  );
}

/** The combination that gives the factored load; the first of the list where two give the same. */
export function governingCombination(
  dead: number,
  variable: number,
  combinations: readonly LoadCombination[] = COMBINATIONS,
): LoadCombination {
  const [first, ...rest] = combinations;
  if (!first)
    throw new RangeError(
      "governingCombination: there are no load combinations, expected at least one",
    );
  const of = (one: LoadCombination): number => one.dead * dead + one.variable * variable;
  return rest.reduce((largest, one) => (of(one) > of(largest) ? one : largest), first);
}

/**
 * A distribution from its mean and coefficient of variation (both above zero).
 * Gumbel of largest: scale = σ√6/π, location = mean − 0.5772 scale; lognormal: σ_ln² = ln(1 + V²).
 * @example marginal("lognormal", 1.2, 0.15)
 */
export function marginal(kind: MarginalKind, mean: number, cov: number): Distribution {
  if (!(mean > 0 && cov > 0 && Number.isFinite(mean) && Number.isFinite(cov)))
    throw new RangeError(
      `marginal: mean ${mean} and coefficient of variation ${cov}, expected positive numbers`,
    );
  if (kind === "normal") return normal(mean, mean * cov);
  if (kind === "lognormal") {
    const variance = Math.log1p(cov * cov);
    return lognormal(Math.log(mean) - 0.5 * variance, Math.sqrt(variance));
  }
  const scale = (mean * cov * Math.sqrt(6)) / Math.PI;
  return gumbel(mean - 0.57721566490153286061 * scale, scale);
}
