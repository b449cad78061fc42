import {
  ACTIONS,
  BAR_MATERIALS,
  BAR_SURFACES,
  CASTING_POSITIONS,
  CONCRETE_TYPES,
  DIAMETER_BASES,
  FAILURE_MODES,
  GRIPS,
  HOLE_CLEANINGS,
  HOLE_DRILLINGS,
  HOLE_MOISTURES,
  INSTALLATION_DIRECTIONS,
  INSTALLATIONS,
  OTHER_EDGES,
  SETUPS,
  STRENGTH_BASES,
  YES_NO,
} from "./categories";
import type { Column } from "./column";
import { text, integer, number, notNegative, category, positive } from "./declare-column";

/**
 * The columns of `tests.csv`, in file order: one row a specimen, or one reported mean of
 * `replicates` specimens. Names carry their unit; a file may use another unit in the name and is
 * converted on reading.
 */
export const TEST_COLUMNS: ReadonlyArray<Column> = [
  text("test_id", "name of the specimen, unique in all data read together", true),
  text("study_id", "the study (one laboratory's campaign or one paper) the row comes from", true),
  text("series_id", "group of nominally identical specimens", true),
  integer(
    "replicates",
    "number of specimens of which the row is the mean; 1 or blank for a single test",
    { minimum: 1 },
  ),
  number(
    "load_sd_kN",
    "kN",
    "standard deviation of the replicates' loads, where reported",
    notNegative,
  ),
  category("bar_material", BAR_MATERIALS, "fibre or metal of the bar", { required: true }),
  category("bar_surface", BAR_SURFACES, "surface of the bar"),
  text("bar_size", "size label, e.g. 16 or #5"),
  number("bar_diameter_mm", "mm", "diameter used for the bonded surface", {
    required: true,
    above: 0,
    maximum: 200,
  }),
  number("bar_area_mm2", "mm2", "cross-section of one bar", positive),
  category("diameter_basis", DIAMETER_BASES, "whether bar_diameter_mm is nominal or measured"),
  number("bar_strength_MPa", "MPa", "measured mean tensile strength", positive),
  number(
    "bar_strength_specified_MPa",
    "MPa",
    "specified tensile strength (steel) or guaranteed strength (FRP)",
    positive,
  ),
  number("bar_yield_MPa", "MPa", "measured yield strength (steel)", positive),
  number("bar_shear_strength_MPa", "MPa", "measured mean transverse shear strength", positive),
  number(
    "bar_shear_strength_specified_MPa",
    "MPa",
    "specified or guaranteed transverse shear strength",
    positive,
  ),
  number("bar_modulus_GPa", "GPa", "tensile modulus of elasticity", positive),
  category("installation", INSTALLATIONS, "drilled and bonded into hardened concrete, or cast in", {
    required: true,
  }),
  text("adhesive", "code letter of the adhesive"),
  number("hole_diameter_mm", "mm", "drilled hole", positive),
  category(
    "installation_direction",
    INSTALLATION_DIRECTIONS,
    "direction in which the hole was drilled and filled",
  ),
  category(
    "hole_drilling",
    HOLE_DRILLINGS,
    "hammer drill, diamond core drill, hollow bit with dust extraction, or other",
  ),
  category(
    "hole_cleaning",
    HOLE_CLEANINGS,
    "whether the hole was cleaned as the adhesive's instructions ask, less, or not at all",
  ),
  text("hole_cleaning_steps", "the steps in free words, e.g. 2 x blow, 2 x brush, 2 x blow"),
  category("hole_moisture", HOLE_MOISTURES, "state of the hole when the adhesive was placed"),
  number(
    "installation_temperature_degC",
    "degC",
    "temperature of the concrete when the adhesive was placed",
    { minimum: -60, maximum: 100 },
  ),
  number(
    "test_temperature_degC",
    "degC",
    "temperature of the concrete during the test, or in service where it was kept at one",
    { minimum: -200, maximum: 1200 },
  ),
  number(
    "bond_strength_char_MPa",
    "MPa",
    "the adhesive's qualified characteristic bond stress for this row's state, cracked or not",
    positive,
  ),
  number(
    "bond_strength_uncracked_char_MPa",
    "MPa",
    "the same in uncracked concrete, which the critical edge distance needs",
    positive,
  ),
  number(
    "bond_strength_mean_MPa",
    "MPa",
    "mean bond stress of the adhesive or bar for this row's state, from tests other than this one; mean models need it",
    positive,
  ),
  number("concrete_strength_MPa", "MPa", "mean compressive strength at the day of the test", {
    required: true,
    above: 0,
  }),
  category(
    "concrete_strength_basis",
    STRENGTH_BASES,
    "specimen the strength was measured on; unknown if not stated (no capacity is then predicted); cylinder_assumed if not stated and knowingly taken for a cylinder",
    { required: true },
  ),
  category("concrete_type", CONCRETE_TYPES, "kind of concrete; blank means normal", { open: true }),
  number("lightweight_factor", null, "lambda; 1 for normal-weight concrete", {
    above: 0,
    maximum: 1,
  }),
  category("cracked", YES_NO, "whether the bar sits in a crack"),
  number("crack_width_mm", "mm", "crack width during the test", notNegative),
  number("embedment_mm", "mm", "effective embedment depth; the bonded length in bond tests", {
    required: true,
    above: 0,
  }),
  number("member_thickness_mm", "mm", "thickness of the concrete member along the bar", positive),
  number(
    "edge_1_mm",
    "mm",
    "distance from the centre of the outermost bar to edge 1; blank = far; in shear the load acts towards edge 1",
    positive,
  ),
  number("edge_2_mm", "mm", "distance to edge 2, at right angles to edge 1; blank = far", positive),
  number("edge_3_mm", "mm", "distance to edge 3, opposite edge 1; blank = far", positive),
  number("edge_4_mm", "mm", "distance to edge 4, opposite edge 2; blank = far", positive),
  category(
    "other_edges",
    OTHER_EDGES,
    "far: you looked at every edge without a distance, and it is too far to matter; blank: nobody said (such edges are read as far all the same, and check and compare say in how many rows)",
  ),
  integer("group_nx", "bars in the direction normal to edge 1; blank = 1", {
    minimum: 1,
    maximum: 100,
  }),
  integer("group_ny", "bars in the direction along edge 1; blank = 1", {
    minimum: 1,
    maximum: 100,
  }),
  number("spacing_x_mm", "mm", "centre spacing normal to edge 1", positive),
  number("spacing_y_mm", "mm", "centre spacing along edge 1", positive),
  number(
    "eccentricity_x_mm",
    "mm",
    "eccentricity of the load on the group, normal to edge 1",
    notNegative,
  ),
  number(
    "eccentricity_y_mm",
    "mm",
    "eccentricity of the load on the group, along edge 1",
    notNegative,
  ),
  number(
    "lever_arm_mm",
    "mm",
    "distance from where the shear acts to where the bar is held (EN 1992-4: half a diameter inside the concrete); blank = none",
    notNegative,
  ),
  integer(
    "lever_restraint",
    "1: the attached part may rotate; 2: it is held against rotation, so the lever arm bends the bar both ways; blank = 1",
    { minimum: 1, maximum: 2 },
  ),
  number(
    "grout_thickness_mm",
    "mm",
    "grout between the attached part and the concrete; blank = none",
    notNegative,
  ),
  category(
    "casting_position",
    CASTING_POSITIONS,
    "top: more than 300 mm of fresh concrete below the bar; blank = good",
  ),
  number("cover_mm", "mm", "clear concrete cover of the bar (bond tests)", notNegative),
  number("bar_spacing_mm", "mm", "clear spacing of bars (bond tests)", positive),
  category("setup", SETUPS, "test arrangement", { required: true }),
  category(
    "grip",
    GRIPS,
    "how the loaded end of the bar was held: wedges on the bar itself, wedges on a sleeve grouted onto the bar, threaded sleeve, block cast around the bar, or other (say which in remarks)",
  ),
  number(
    "grip_break_stress_MPa",
    "MPa",
    "bar stress at which the bar broke or slipped in the grip; blank where it did neither, or where failure_mode is rupture_at_grip and the stress is peak load / bar area",
    positive,
  ),
  category("action", ACTIONS, "tension, shear, or both at once", { required: true }),
  number(
    "peak_load_kN",
    "kN",
    "highest load; of the whole group where there is one; with tension and shear the resultant of both",
    { required: true, above: 0 },
  ),
  number(
    "load_angle_deg",
    "deg",
    "angle of the load from the bar axis, where tension and shear act at once (tan = shear / tension); blank for one load alone",
    { minimum: 0, maximum: 90 },
  ),
  number("slip_at_peak_mm", "mm", "slip at the highest load", notNegative),
  category("failure_mode", FAILURE_MODES, "observed failure mode", { required: true }),
  text("excluded", "reason why the row is not evaluated; blank = kept"),
  text("remarks", "anything a reader should know"),
];

const BY_NAME: ReadonlyMap<string, Column> = new Map(
  TEST_COLUMNS.map((column) => [column.name, column]),
);

/** The schema's column of that name, or null when the schema has none. */
export function testColumn(name: string): Column | null {
  return BY_NAME.get(name) ?? null;
}
