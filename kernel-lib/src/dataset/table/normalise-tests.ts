import type { StrengthBasis } from "../schema/categories";
import { TO_CYLINDER } from "./cylinder-strength";
import {
  CONCRETE_STRENGTH_EXPONENTS,
  fitStrengthExponent,
  normaliseToStrength,
  type FittedExponent,
  type Normalised,
} from "./normalise";
import type { TestTable } from "./test-table";

/** What is normalised, by which strength, to which reference, and with which exponent. */
export interface NormalisationRequest {
  /**
   * The peak load in kN, or the average bond stress load / (pi d l) in MPa of all bars together.
   */
  readonly quantity: "load" | "bond_stress";
  /** The concrete's cylinder strength, or the bar's measured strength. */
  readonly by: "concrete" | "bar";
  /** MPa */
  readonly reference_MPa: number;
  /**
   * A number; `by_mode`: that of the observed failure mode; `fitted`: from these tests, with a
   * level for each group of `within`.
   */
  readonly exponent: number | "by_mode" | "fitted";
  /**
   * Columns that make tests alike but for the strength; default study, bar, embedment and set-up.
   * Used by `fitted` alone.
   */
  readonly within?: ReadonlyArray<string>;
  /**
   * A concrete strength on an unknown basis: leave the test out, or take it for a cylinder
   * strength. Default: leave out.
   */
  readonly unknownBasis?: "left_out" | "as_cylinder";
}

/** One test before and after. */
export interface NormalisedTest extends Normalised {
  /** Index in the table. */
  readonly index: number;
  readonly test_id: string;
  /** Strength it was normalised by, MPa; on the cylinder's basis for concrete. */
  readonly strength_MPa: number;
  /**
   * Standard uncertainty of the normalised value from the conversion of the basis and from a fitted
   * exponent, relative to it.
   */
  readonly relativeUncertainty: number;
}

/** Tests with and without normalisation, and those that could not be normalised. */
export interface NormalisedTests {
  readonly tests: ReadonlyArray<NormalisedTest>;
  readonly leftOut: ReadonlyArray<{
    readonly index: number;
    readonly test_id: string;
    readonly reason: string;
  }>;
  /** The fitted exponent; null where none was asked for. */
  readonly fit: FittedExponent | null;
}

interface Candidate {
  readonly index: number;
  readonly test_id: string;
  readonly value: number;
  readonly strength: number;
  readonly basisUncertainty: number;
  readonly exponent: number;
}

/**
 * Normalises every kept test to a reference strength: value x (reference / strength)^m. The value
 * as measured stands beside the normalised one, and the uncertainty of what was assumed is carried:
 * u^2 = (m u_basis)^2 + (ln(reference / strength) u_m)^2.
 * @throws RangeError for a reference that is not above 0, or a fit that is not possible
 * @example
 * normaliseTests(bond, { quantity: "bond_stress", by: "concrete", reference_MPa: 30, exponent: "fitted" })
 */
export function normaliseTests(tests: TestTable, request: NormalisationRequest): NormalisedTests {
  const { exponent, reference_MPa } = request;
  const leftOut: Array<{ index: number; test_id: string; reason: string }> = [];
  const candidates: Candidate[] = [];
  for (let i = 0; i < tests.length; i += 1) {
    const found = candidate(tests, i, request);
    if (typeof found === "string")
      leftOut.push({ index: i, test_id: tests.text(i, "test_id") ?? "", reason: found });
    else candidates.push(found);
  }
  const fit = exponent === "fitted" ? fitOf(tests, candidates, request) : null;
  return {
    fit,
    leftOut,
    tests: candidates.map(
      ({ index, test_id, value, strength, basisUncertainty, exponent: own }) => {
        const m = fit?.exponent ?? own;
        const uncertainty = Math.hypot(
          m * basisUncertainty,
          Math.log(reference_MPa / strength) * (fit?.standardError ?? 0),
        );
        return {
          index,
          test_id,
          strength_MPa: strength,
          relativeUncertainty: uncertainty,
          ...normaliseToStrength(value, strength, reference_MPa, m),
        };
      },
    ),
  };
}

function candidate(
  tests: TestTable,
  i: number,
  { quantity, by, exponent, unknownBasis }: NormalisationRequest,
): Candidate | string {
  const excluded = tests.text(i, "excluded");
  if (excluded !== null) return `excluded: ${excluded}`;
  const basis = tests.text(i, "concrete_strength_basis") as StrengthBasis;
  const assumed = basis === "unknown" && unknownBasis === "as_cylinder" ? "cylinder" : basis;
  if (by === "concrete" && assumed === "unknown")
    return "the basis of the concrete strength is unknown";
  const rule =
    by === "concrete" && assumed !== "unknown"
      ? TO_CYLINDER[assumed]
      : { factor: 1, relativeUncertainty: 0 };
  const strength =
    tests.number(i, by === "concrete" ? "concrete_strength_MPa" : "bar_strength_MPa") * rule.factor;
  if (Number.isNaN(strength)) return "the bar's measured strength is blank";
  if (quantity === "bond_stress" && tests.text(i, "action") !== "tension")
    return "a test in shear has no bond stress";
  const own =
    typeof exponent === "number"
      ? exponent
      : exponent === "by_mode"
        ? exponentOf(by, tests.text(i, "failure_mode") ?? "")
        : 0;
  if (own === undefined)
    return `no exponent is agreed for the mode ${tests.text(i, "failure_mode") ?? ""}: give one or have it fitted`;
  return {
    index: i,
    test_id: tests.text(i, "test_id") ?? "",
    value: valueOf(tests, i, quantity),
    strength,
    basisUncertainty: rule.relativeUncertainty,
    exponent: own,
  };
}

/** Modes of the bar follow its strength in full, modes of the concrete not at all. */
function exponentOf(by: "concrete" | "bar", mode: string): number | undefined {
  const concrete = CONCRETE_STRENGTH_EXPONENTS[mode];
  if (by === "concrete" || concrete === undefined) return concrete;
  return concrete === 0 ? 1 : 0;
}

function valueOf(tests: TestTable, i: number, quantity: "load" | "bond_stress"): number {
  const load = tests.number(i, "peak_load_kN");
  if (quantity === "load") return load;
  const [nx, ny] = [tests.number(i, "group_nx"), tests.number(i, "group_ny")];
  const bars = (Number.isNaN(nx) ? 1 : nx) * (Number.isNaN(ny) ? 1 : ny);
  return (
    (1000 * load) /
    (bars * Math.PI * tests.number(i, "bar_diameter_mm") * tests.number(i, "embedment_mm"))
  );
}

function fitOf(
  tests: TestTable,
  candidates: ReadonlyArray<Candidate>,
  { within }: NormalisationRequest,
): FittedExponent {
  const columns = within ?? [
    "study_id",
    "bar_material",
    "bar_surface",
    "bar_diameter_mm",
    "embedment_mm",
    "setup",
  ];
  const rows = new Map(candidates.map(({ index }) => [index, tests.row(index)]));
  const groups = candidates.map(({ index }) => {
    const row = rows.get(index);
    return JSON.stringify(
      columns.map((name) =>
        row === undefined
          ? null
          : ((row as unknown as Record<string, unknown>)[name] ?? row.extra[name] ?? null),
      ),
    );
  });
  return fitStrengthExponent(
    candidates.map(({ value }) => value),
    candidates.map(({ strength }) => strength),
    groups,
  );
}
