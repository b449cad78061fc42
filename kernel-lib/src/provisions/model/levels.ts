/** The failure modes of the data contract that a provision can predict. */
export type FailureMode =
  | "concrete_breakout"
  | "bond"
  | "combined_cone_bond"
  | "splitting"
  | "bar_rupture"
  | "yield"
  | "rupture_at_surface"
  | "concrete_edge_breakout"
  | "pryout"
  | "bar_shear";

/**
 * At what level a capacity is stated: `expected` by a mean model with measured properties,
 * `nominal` as the code's characteristic value before any strength reduction, `design` with the
 * code's reduction or partial factor.
 */
export type Level = "expected" | "nominal" | "design";

/**
 * How sure the project is of an equation: H coded as known, M to be checked against a licensed
 * copy.
 */
export type Confidence = "H" | "M";
