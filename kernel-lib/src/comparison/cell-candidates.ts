/** Columns among which those are looked for by which the mean ratio of a group differs. */
export const CELL_CANDIDATES = [
  "layout",
  "adhesive",
  "cracked",
  "bar_material",
  "bar_surface",
  "bar_size",
  "setup",
  "installation",
  "concrete_type",
  "mode",
  "installation_direction",
  "hole_drilling",
  "hole_cleaning",
  "hole_moisture",
] as const;
