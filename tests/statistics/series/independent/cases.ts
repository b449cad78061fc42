import { readFileSync } from "node:fs";

/** Values of each series of one cell. */
export type Cell = readonly (readonly number[])[];
/**
 * Lower bound (90 %), median estimate and upper bound (10 %) of the 5 % fractile for a new series.
 */
export type Bounds = readonly [lower: number, median: number, upper: number];

/** One data set of bounds.json and what bounds.py found for it; one entry of `bounds` a cell. */
export interface BoundCase {
  readonly name: string;
  readonly cells: readonly Cell[];
  /** Posterior mean of rho, the point mass at zero included. */
  readonly rhoMean: number;
  readonly weightAtZero: number;
  readonly bounds: readonly Bounds[];
  /** Lower bound of the first cell where rho is known, by rho. */
  readonly knownRho: Readonly<Record<string, number>>;
}

/** One cell, and its bounds without one series (`left`, its index). */
export interface LeaveOneOut {
  readonly series: Cell;
  readonly bounds: Bounds;
  readonly without: readonly { readonly left: number; readonly bounds: Bounds }[];
}

export interface BoundFile {
  readonly fractile: number;
  /** Of `bounds`: P(mu - z s <= bound). */
  readonly probabilities: readonly number[];
  readonly cases: readonly BoundCase[];
  readonly leaveOneOut: LeaveOneOut;
}

export const read = (name: string): unknown =>
  JSON.parse(readFileSync(`${import.meta.dirname}/${name}`, "utf8"));

export const boundFile = (): BoundFile => read("bounds.json") as BoundFile;

/** Values and names of series of one cell, one row a test. */
export const rowsOf = (cell: Cell): { readonly values: number[]; readonly clusters: number[] } => ({
  values: cell.flat(),
  clusters: cell.flatMap((series, i) => series.map(() => i)),
});

/** Standard deviation of all values of a cell, the measure of every difference. */
export function sdOf(cell: Cell): number {
  const values = cell.flat();
  const mean = values.reduce((sum, y) => sum + y, 0) / values.length;
  return Math.sqrt(values.reduce((sum, y) => sum + (y - mean) ** 2, 0) / (values.length - 1));
}

/**
 * One data set with the bound of three methods: posterior (law.py), nested analysis of variance,
 * generalized pivot.
 */
export interface Comparison {
  readonly name: string;
  readonly series: Cell;
  readonly fractile: number;
  readonly confidence: number;
  readonly bound: number;
  readonly nestedAnova: number;
  readonly generalizedPivot: number;
}

export const comparisons = (): readonly Comparison[] =>
  read("comparisons.json") as readonly Comparison[];

/**
 * One data set of lower_bounds.json; values where `lowerBound` is 1 are right-censored. Bounds to
 * 1e-5.
 */
export interface LowerBoundCase {
  readonly name: string;
  readonly series: Cell;
  readonly lowerBound: readonly (readonly number[])[];
  readonly n0: number;
  /** Measure of the point mass at rho = 0. */
  readonly mass: number;
  readonly weightAtZero: number;
  readonly bounds: Bounds;
}

interface LowerBoundFile {
  readonly cases: readonly LowerBoundCase[];
}

export const lowerBoundCases = (): readonly LowerBoundCase[] =>
  (read("lower_bounds.json") as LowerBoundFile).cases;

/**
 * What R prints (estimates.R): REML of cases of bounds.json, to about 2e-6, and censored normal
 * fits at rho = 0.
 */
export interface Estimates {
  readonly reml: readonly RemlFit[];
  readonly censored: readonly CensoredFit[];
}

export interface RemlFit {
  readonly name: string;
  /** One a cell. */
  readonly means: readonly number[];
  readonly sdBetween: number;
  readonly sdWithin: number;
  readonly icc: number;
}

export interface CensoredFit {
  readonly name: string;
  readonly mean: number;
  readonly sd: number;
  readonly logLikelihood: number;
}

export const estimates = (): Estimates => read("estimates.json") as Estimates;
