import type {
  Action,
  BarMaterial,
  BarSurface,
  CastingPosition,
  DiameterBasis,
  FailureMode,
  Grip,
  HoleCleaning,
  HoleDrilling,
  HoleMoisture,
  Installation,
  InstallationDirection,
  OtherEdges,
  Setup,
  StrengthBasis,
  YesNo,
} from "./categories";

/**
 * A cell of a column that the schema does not know: text as typed, or a number where the whole
 * column is numbers.
 */
export type ExtraValue = string | number | null;

/**
 * One specimen, or one reported mean, with the columns of the data contract under their own names.
 * A missing value is null. Lengths in mm, areas in mm2, loads in kN, stresses in MPa, moduli in
 * GPa.
 */
export interface TestRow {
  readonly test_id: string;
  readonly study_id: string;
  readonly series_id: string;
  readonly replicates: number | null;
  readonly load_sd_kN: number | null;
  readonly bar_material: BarMaterial;
  readonly bar_surface: BarSurface | null;
  readonly bar_size: string | null;
  readonly bar_diameter_mm: number;
  readonly bar_area_mm2: number | null;
  readonly diameter_basis: DiameterBasis | null;
  readonly bar_strength_MPa: number | null;
  readonly bar_strength_specified_MPa: number | null;
  readonly bar_yield_MPa: number | null;
  readonly bar_shear_strength_MPa: number | null;
  readonly bar_shear_strength_specified_MPa: number | null;
  readonly bar_modulus_GPa: number | null;
  readonly installation: Installation;
  readonly adhesive: string | null;
  readonly hole_diameter_mm: number | null;
  readonly installation_direction: InstallationDirection | null;
  readonly hole_drilling: HoleDrilling | null;
  readonly hole_cleaning: HoleCleaning | null;
  readonly hole_cleaning_steps: string | null;
  readonly hole_moisture: HoleMoisture | null;
  readonly installation_temperature_degC: number | null;
  readonly test_temperature_degC: number | null;
  readonly bond_strength_char_MPa: number | null;
  readonly bond_strength_uncracked_char_MPa: number | null;
  readonly bond_strength_mean_MPa: number | null;
  readonly concrete_strength_MPa: number;
  readonly concrete_strength_basis: StrengthBasis;
  readonly concrete_type: string | null;
  readonly lightweight_factor: number | null;
  readonly cracked: YesNo | null;
  readonly crack_width_mm: number | null;
  readonly embedment_mm: number;
  readonly member_thickness_mm: number | null;
  readonly edge_1_mm: number | null;
  readonly edge_2_mm: number | null;
  readonly edge_3_mm: number | null;
  readonly edge_4_mm: number | null;
  readonly other_edges: OtherEdges | null;
  readonly group_nx: number | null;
  readonly group_ny: number | null;
  readonly spacing_x_mm: number | null;
  readonly spacing_y_mm: number | null;
  readonly eccentricity_x_mm: number | null;
  readonly eccentricity_y_mm: number | null;
  readonly lever_arm_mm: number | null;
  readonly lever_restraint: number | null;
  readonly grout_thickness_mm: number | null;
  readonly casting_position: CastingPosition | null;
  readonly cover_mm: number | null;
  readonly bar_spacing_mm: number | null;
  readonly setup: Setup;
  readonly grip: Grip | null;
  readonly grip_break_stress_MPa: number | null;
  readonly action: Action;
  readonly peak_load_kN: number;
  readonly load_angle_deg: number | null;
  readonly slip_at_peak_mm: number | null;
  readonly failure_mode: FailureMode;
  readonly excluded: string | null;
  readonly remarks: string | null;
  /** Cells of columns outside the schema, by column name. */
  readonly extra: Readonly<Record<string, ExtraValue>>;
}

/** Names of the schema's columns. */
export type TestColumnName = Exclude<keyof TestRow, "extra">;

/** The schema's columns that hold numbers. */
export type NumberColumnName = {
  [K in TestColumnName]: Extract<TestRow[K], number> extends never ? never : K;
}[TestColumnName];

/** The schema's columns that hold text or categories. */
export type TextColumnName = Exclude<TestColumnName, NumberColumnName>;

/** Columns that every row fills. */
export type RequiredColumnName = {
  [K in TestColumnName]: null extends TestRow[K] ? never : K;
}[TestColumnName];

/** A row as one writes it by hand: the required columns, and of the others those that are known. */
export type TestRowInput = Pick<TestRow, RequiredColumnName> &
  Partial<Omit<TestRow, RequiredColumnName>>;
