/** Fibre or metal of the bar. */
export const BAR_MATERIALS = ["steel", "gfrp", "bfrp", "cfrp", "afrp"] as const;
/** Fiber or metal of the bar. */
export type BarMaterial = (typeof BAR_MATERIALS)[number];

export const BAR_SURFACES = [
  "ribbed",
  "sand_coated",
  "helically_wrapped",
  "sand_coated_helical",
  "indented",
  "plain",
  "threaded",
  "unknown",
] as const;
/** Surface of the bar. */
export type BarSurface = (typeof BAR_SURFACES)[number];

export const DIAMETER_BASES = ["nominal", "measured"] as const;
export type DiameterBasis = (typeof DIAMETER_BASES)[number];

export const INSTALLATIONS = ["post_installed", "cast_in"] as const;
/** How the bar got into the concrete. */
export type Installation = (typeof INSTALLATIONS)[number];

/**
 * Which way the hole was drilled; overhead: upwards or inclined upwards, so that adhesive can run
 * out.
 */
export const INSTALLATION_DIRECTIONS = ["down", "horizontal", "overhead"] as const;
export type InstallationDirection = (typeof INSTALLATION_DIRECTIONS)[number];

/**
 * core: diamond core drill, whose wall is smooth; hollow_bit: hollow hammer-drill bit that extracts
 * the dust.
 */
export const HOLE_DRILLINGS = ["hammer", "core", "hollow_bit", "other"] as const;
export type HoleDrilling = (typeof HOLE_DRILLINGS)[number];

/** as_instructed: as the instructions of the adhesive ask; reduced: less than that. */
export const HOLE_CLEANINGS = ["as_instructed", "reduced", "none"] as const;
export type HoleCleaning = (typeof HOLE_CLEANINGS)[number];

/** State of the hole as the adhesive went in; submerged: the concrete under water. */
export const HOLE_MOISTURES = ["dry", "saturated", "water_filled", "submerged"] as const;
export type HoleMoisture = (typeof HOLE_MOISTURES)[number];

/**
 * Specimen the concrete strength was measured on; cubes named by their side in mm.
 * `cylinder_assumed`: not stated, and taken for a cylinder by a named assumption.
 */
export const STRENGTH_BASES = [
  "cylinder",
  "cube_150",
  "cube_200",
  "cube_100",
  "cylinder_assumed",
  "unknown",
] as const;
/** Specimen and meaning of a stated concrete strength. */
export type StrengthBasis = (typeof STRENGTH_BASES)[number];

/** Usual kinds; another kind is kept and pointed out. */
export const CONCRETE_TYPES = [
  "normal",
  "lightweight",
  "engineered_cementitious",
  "uhpc",
  "seawater",
  "fibre_reinforced",
  "geopolymer",
] as const;

export const YES_NO = ["yes", "no"] as const;
export type YesNo = (typeof YES_NO)[number];

/** "top": more than 300 mm of fresh concrete was cast below the bar. */
export const CASTING_POSITIONS = ["good", "top"] as const;
export type CastingPosition = (typeof CASTING_POSITIONS)[number];

/** What is known of the edges that have no distance. */
export const OTHER_EDGES = ["far"] as const;
export type OtherEdges = (typeof OTHER_EDGES)[number];

export const SETUPS = [
  "confined_tension",
  "unconfined_tension",
  "direct_shear",
  "pullout_block",
  "beam_end",
  "hinged_beam",
  "splice",
  "combined_loading",
] as const;
/** Set-up of a test. */
export type Setup = (typeof SETUPS)[number];

/**
 * How the loaded end of the bar is held in a tension test: the trade's usual ways (common practice,
 * no source).
 */
export const GRIPS = [
  "wedges_on_bar",
  "wedges_on_grouted_sleeve",
  "threaded_sleeve",
  "cast_block",
  "other",
] as const;
export type Grip = (typeof GRIPS)[number];

export const ACTIONS = ["tension", "shear", "tension_and_shear"] as const;
/** Load on the bar. */
export type Action = (typeof ACTIONS)[number];

export const FAILURE_MODES = [
  "concrete_breakout",
  "bond",
  "combined_cone_bond",
  "splitting",
  "bar_rupture",
  "rupture_at_grip",
  "rupture_at_surface",
  "yield",
  "concrete_edge_breakout",
  "pryout",
  "bar_shear",
  "stopped",
  "unknown",
] as const;
/** How a test ended. */
export type FailureMode = (typeof FAILURE_MODES)[number];

/** Where a study comes from. "demo" data are invented. */
export const PROVENANCES = ["published", "demo", "own"] as const;
/** Where a study comes from. */
export type Provenance = (typeof PROVENANCES)[number];

/** How the rows were taken over from their source. */
export const TRANSCRIPTIONS = ["table", "figure", "supplied", "generated", "compilation"] as const;
export type Transcription = (typeof TRANSCRIPTIONS)[number];
