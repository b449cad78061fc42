import { normaliseTests, type NormalisedTests, type TestTable } from "../dataset";
import { mixedModel, RegressionError, type MixedModel } from "../regression";

/** One test: its bond stress over the geometric mean of the tests of its material and set-up. */
export interface BondStressTest {
  readonly test_id: string;
  readonly study: string;
  readonly setup: string;
  readonly ratio: number;
}

/** Bond stresses of one bar material in several studies. */
export interface BondStressByStudy {
  readonly material: string | null;
  readonly tests: readonly BondStressTest[];
  /** Exponent on concrete strength fitted within like tests of a study; null: none can be. */
  readonly exponent: { readonly exponent: number; readonly standardError: number } | null;
  /** Why stresses stand as measured, without an exponent; null where they are normalized. */
  readonly asMeasured: string | null;
  /** ln(bond stress), with set-up as a fixed and study as a random effect; null where none fits. */
  readonly model: MixedModel | null;
  /** Why there is no model; null where there is one. */
  readonly reason: string | null;
}

/**
 * Bond stress of the tests in tension that failed in bond, by material and study, at one concrete
 * strength: tau (f_ref / f_c)^m, tau = N / (pi d l) in MPa, m fitted within like tests of a study.
 * Where m cannot be fitted, or lies more than 2 standard errors outside 0 to 1 (strength is then
 * confounded with something else; common practice, no source), stresses stand as measured. A mixed model of its logarithm estimates how much
 * of the scatter lies between studies, with set-ups allowed for.
 *
 * Limits: a strength without a stated basis counts as a cylinder strength; studies differ in
 * adhesive, concrete and bar surface, which the study effect absorbs.
 * @param reference_MPa cylinder strength to which stresses are brought, MPa
 * @returns materials in alphabetical order; none where no test in tension failed in bond
 * @example bondStressByStudy(data.tests, 30).map(({ model }) => model?.intraclassCorrelation)
 */
export function bondStressByStudy(tests: TestTable, reference_MPa: number): BondStressByStudy[] {
  const bond = tests
    .kept()
    .where(({ failure_mode, action }) => failure_mode === "bond" && action === "tension");
  const materials = [...new Set(bond.texts("bar_material"))].sort();
  return materials.map((material) =>
    ofMaterial(
      material,
      bond.where(({ bar_material }) => bar_material === material),
      reference_MPa,
    ),
  );
}

function ofMaterial(
  material: string | null,
  bond: TestTable,
  reference_MPa: number,
): BondStressByStudy {
  const { brought, fit, asMeasured } = broughtTo(bond, reference_MPa);
  const points = brought.map(({ index, test_id, normalised }) => ({
    test_id,
    study: bond.text(index, "study_id") ?? "unknown",
    setup: bond.text(index, "setup") ?? "unknown",
    log: Math.log(normalised),
  }));
  const setups = [...new Set(points.map(({ setup }) => setup))];
  const level = new Map(
    setups.map((name) => {
      const own = points.filter(({ setup }) => setup === name);
      return [name, own.reduce((sum, { log }) => sum + log, 0) / own.length] as const;
    }),
  );
  const columns = Object.fromEntries(
    setups.slice(1).map((name) => [name, points.map(({ setup }) => (setup === name ? 1 : 0))]),
  );
  return {
    material,
    tests: points.map(({ test_id, study, setup, log }) => ({
      test_id,
      study,
      setup,
      ratio: Math.exp(log - level.get(setup)!),
    })),
    exponent: fit,
    asMeasured,
    ...modelOf(points, columns),
  };
}

function modelOf(
  points: readonly { readonly log: number; readonly study: string }[],
  columns: Readonly<Record<string, readonly number[]>>,
): Pick<BondStressByStudy, "model" | "reason"> {
  try {
    const model = mixedModel({
      y: points.map(({ log }) => log),
      columns,
      studies: points.map(({ study }) => study),
      response: "ln bond stress",
    });
    return { model, reason: null };
  } catch (error) {
    // One study, or set-ups that differ with the study, is an answer about the data.
    if (!(error instanceof RegressionError)) throw error;
    return { model: null, reason: error.message };
  }
}

function broughtTo(
  bond: TestTable,
  reference_MPa: number,
): Pick<BondStressByStudy, "asMeasured"> & {
  readonly brought: NormalisedTests["tests"];
  readonly fit: NormalisedTests["fit"];
} {
  const request = {
    quantity: "bond_stress",
    by: "concrete",
    reference_MPa,
    unknownBasis: "as_cylinder",
  } as const;
  const measured = normaliseTests(bond, { ...request, exponent: 0 }).tests;
  try {
    const { tests, fit } = normaliseTests(bond, { ...request, exponent: "fitted" });
    if (fit === null || isPlausible(fit)) return { brought: tests, fit, asMeasured: null };
    const asMeasured = "outside 0 to 1, so strength is confounded with other differences";
    return { brought: measured, fit, asMeasured };
  } catch (error) {
    // Too few like tests, or one concrete strength only.
    if (!(error instanceof RangeError)) throw error;
    return { brought: measured, fit: null, asMeasured: "the tests do not allow a fit" };
  }
}

function isPlausible(fit: { readonly exponent: number; readonly standardError: number }): boolean {
  const { exponent: m, standardError } = fit;
  return m > -2 * standardError && m < 1 + 2 * standardError;
}
