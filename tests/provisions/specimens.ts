import { TEST_COLUMNS, TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import {
  predict,
  trace,
  type CodeDefinition,
  type PredictionSettings,
  type ProvisionColumn,
  type CodePrediction,
} from "../../kernel-lib/src/provisions";
import { createRandom } from "../../kernel-lib/src/statistics";
import { MM2_PER_IN2, MM_PER_INCH, MPA_PER_PSI, N_PER_LBF } from "../../kernel-lib/src/units";

/** A bar in a drilled hole far from every edge, by which each test changes what it is about. */
export const PLAIN: TestRowInput = {
  test_id: "plain",
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_surface: "sand_coated",
  bar_diameter_mm: 15.875,
  bar_area_mm2: 199,
  bar_strength_MPa: 900,
  bar_shear_strength_MPa: 150,
  installation: "post_installed",
  bond_strength_char_MPa: 1000 * MPA_PER_PSI,
  bond_strength_uncracked_char_MPa: 1500 * MPA_PER_PSI,
  concrete_strength_MPa: 4000 * MPA_PER_PSI,
  concrete_strength_basis: "cylinder",
  concrete_type: "normal",
  cracked: "yes",
  embedment_mm: 6 * MM_PER_INCH,
  member_thickness_mm: 12 * MM_PER_INCH,
  setup: "unconfined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
};

export const inch = (value: number): number => value * MM_PER_INCH;
export const psi = (value: number): number => value * MPA_PER_PSI;
export const pounds = (newtons: number): number => newtons / N_PER_LBF;
export const squareInch = (value: number): number => value * MM2_PER_IN2;

// Every column, blank: copies of one object keep its form, where spreading two makes each row a
// slow dictionary.
const BLANK = Object.fromEntries(TEST_COLUMNS.map(({ name }) => [name, null]));

export function table(...rows: Partial<TestRowInput>[]): TestTable {
  return TestTable.fromRows(
    rows.map((row, i) => Object.assign({ ...BLANK }, PLAIN, { test_id: `t${i}` }, row)),
  );
}

export function column(prediction: CodePrediction, id: string): ProvisionColumn {
  const found = prediction.columns.find(({ provision }) => provision.id === id);
  if (!found)
    throw new Error(
      `no provision ${id}: ${prediction.columns.map(({ provision }) => provision.id).join()}`,
    );
  return found;
}

/** The capacity of one provision for one specimen, N. */
export function capacity(
  code: CodeDefinition,
  id: string,
  row: Partial<TestRowInput>,
  settings: PredictionSettings = {},
): number {
  return column(predict(code, table(row), settings), id).capacity[0] ?? NaN;
}

/** Specimens of every kind: any material, installation, geometry; some cells blank. */
export function randomRows(seed: number, count: number, blanks = 0.03): Partial<TestRowInput>[] {
  const random = createRandom(seed);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random.uniform() * of.length)] as T;
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const maybe = <T>(value: T): T | null => (random.uniform() < blanks ? null : value);
  const edge = (): number | null => (random.uniform() < 0.4 ? null : between(40, 500));
  return Array.from({ length: count }, (_, k) => {
    const diameter = pick([9.5, 12.7, 15.9, 19.1, 25.4]);
    const [nx, ny] = [pick([1, 1, 1, 2, 3]), pick([1, 1, 1, 2, 4])];
    return {
      bar_material: pick(["steel", "gfrp", "bfrp", "cfrp", "afrp"] as const),
      bar_surface: pick([
        "ribbed",
        "sand_coated",
        "helically_wrapped",
        "sand_coated_helical",
        "indented",
        "plain",
        "threaded",
        "unknown",
      ] as const),
      bar_diameter_mm: diameter,
      bar_area_mm2: pick([null, (Math.PI / 4) * diameter ** 2]),
      bar_strength_MPa: maybe(between(500, 1400)),
      bar_strength_specified_MPa: pick([null, between(450, 1200)]),
      bar_yield_MPa: maybe(between(400, 550)),
      bar_shear_strength_MPa: maybe(between(110, 250)),
      bar_modulus_GPa: maybe(between(40, 200)),
      installation: pick(["post_installed", "cast_in"] as const),
      hole_diameter_mm: maybe(diameter + 4),
      bond_strength_char_MPa: maybe(between(4, 15)),
      bond_strength_uncracked_char_MPa: maybe(between(6, 20)),
      concrete_strength_MPa: between(18, 90),
      concrete_strength_basis: pick([
        "cylinder",
        "cube_150",
        "cube_200",
        "cube_100",
        "unknown",
      ] as const),
      concrete_type: pick(["normal", "lightweight", "uhpc"] as const),
      lightweight_factor: pick([null, 0.75, 0.85]),
      cracked: pick(["yes", "no"] as const),
      embedment_mm: diameter * between(3, 22),
      member_thickness_mm: maybe(between(120, 900)),
      edge_1_mm: edge(),
      edge_2_mm: edge(),
      edge_3_mm: edge(),
      edge_4_mm: edge(),
      group_nx: nx,
      group_ny: ny,
      spacing_x_mm: nx > 1 ? maybe(between(50, 700)) : null,
      spacing_y_mm: ny > 1 ? maybe(between(50, 700)) : null,
      eccentricity_x_mm: pick([null, between(0, 40)]),
      eccentricity_y_mm: pick([null, between(0, 40)]),
      cover_mm: maybe(between(15, 120)),
      bar_spacing_mm: pick([null, between(30, 200)]),
      casting_position: pick([null, "good", "top"] as const),
      setup: pick([
        "confined_tension",
        "unconfined_tension",
        "direct_shear",
        "pullout_block",
        "beam_end",
      ] as const),
      action: pick(["tension", "shear"] as const),
      // Not drawn at random, so that the other columns keep their values.
      bond_strength_mean_MPa: 4 + diameter / 2,
      bar_shear_strength_specified_MPa: k % 3 === 0 ? null : 100 + diameter,
    };
  });
}

/**
 * The steps and inputs of the hand calculation of one provision for one specimen, in the edition's
 * units.
 */
export function steps(
  code: CodeDefinition,
  id: string,
  row: Partial<TestRowInput>,
  settings: PredictionSettings = {},
): Record<string, number> {
  const { provision } = column(predict(code, table(row), settings), id);
  const parts = trace(code, provision, table(row), 0, settings).parts;
  return Object.fromEntries(
    [...(parts[0]?.inputs ?? []), ...(parts[0]?.steps ?? [])].map(({ symbol, value }) => [
      symbol,
      value,
    ]),
  );
}
