import type { CodeOption } from "../../model/definition";
import { whether } from "../../model/yes-or-no";

const flag = (meaning: string, clause: string, value = 0): CodeOption => ({
  quantity: "number",
  value,
  meaning: whether(meaning),
  clause,
});

/** What the user of the code may state. Every default is the plain case that claims nothing. */
export const OPTIONS = {
  supplementary_reinforcement: flag("supplementary reinforcement is present", "17.5.3"),
  installation_category: {
    quantity: "number",
    value: 1,
    meaning: "qualification category of the post-installed bar: 1, 2 or 3",
    clause: "17.5.3",
  },
  ductile: flag("the steel element is ductile; FRP bars are always brittle", "17.5.3"),
  edge_reinforcement: {
    quantity: "number",
    value: 0,
    meaning:
      "edge reinforcement: 0 none or smaller than No. 4; 1 an edge bar of at least No. 4; 2 the same with stirrups at a spacing of at most 4 in.",
    clause: "17.7.2.5",
  },
  grout_pad: flag(
    "the bar passes through a grout pad; used for rows without grout_thickness_mm",
    "17.7.1.2.1",
  ),
  bond_table: {
    quantity: "number",
    value: 0,
    meaning:
      "bond stress: 0 as stated in the row; 1 table value, outdoor, dry to saturated, up to 175 °F (79 °C); 2 table value, indoor, dry, up to 110 °F (43 °C). The table applies only under the conditions of its clause",
    clause: "17.6.5.2.5",
  },
  sustained: flag("the tension is sustained", "17.5.2.2"),
  seismic: flag("the seismic design category is C to F (table values of bond only)", "17.6.5.2.5"),
  headed_cast_in: flag("a cast-in bar is treated as headed for concrete breakout", "17.6.2.2"),
  product_k_c: {
    quantity: "number",
    value: 0,
    meaning:
      "breakout coefficient k_c from the product evaluation for the crack state of the row, in the units of the edition; 0 if not stated. At most the cast-in value is used, and psi_c,N is then 1",
    clause: "17.6.2.2.2",
  },
  product_c_ac: {
    quantity: "length",
    value: 0,
    meaning:
      "critical edge distance from the product evaluation; 0 if not stated, for which 2 h_ef is used",
    clause: "17.9.5",
  },
  deep_breakout: flag("the 5/3-power equation is used where 17.6.2.2.3 permits it", "17.6.2.2.3"),
  rows_share_shear: flag(
    "several rows resist edge shear by R17.7.2.1 (from memory): rows at least c_a1 apart share it, with the rear row also checked for the whole shear, and closer rows do not; otherwise the front row resists it",
    "R17.7.2.1",
  ),
  literal_steel_shear: flag(
    "the steel clause (a fraction of the tensile strength) is applied literally to FRP",
    "17.7.1.2",
  ),
  interaction_form: {
    quantity: "number",
    value: 0,
    meaning:
      "interaction of tension and shear: 0 straight lines (17.8), 1 power 5/3 of the commentary (R17.8)",
    clause: "17.8",
  },
  A_brg: {
    quantity: "area",
    value: 0,
    meaning: "net bearing area of a cast-in head; 0 for a straight bar",
    clause: "17.6.3.2.2a",
  },
  e_h: {
    quantity: "length",
    value: 0,
    meaning: "distance from the inner face of the shaft of a hook to its tip; 0 for a straight bar",
    clause: "17.6.3.2.2b",
  },
  welded_to_plate: flag(
    "cast-in bars with heads or hooks are welded to a plate at least 3/8 in. (10 mm) thick that meets the conditions of the clause",
    "17.7.2.2.2",
  ),
  coated_bar: {
    quantity: "number",
    value: 0,
    meaning:
      "coating: 0 uncoated; 1 epoxy-coated with small cover or spacing; 2 other epoxy-coated",
    clause: "25.4.2.5",
  },
  transverse_index: {
    quantity: "length",
    value: 0,
    meaning: "transverse reinforcement index K_tr",
    clause: "25.4.2.4",
  },
} as const satisfies Record<string, CodeOption>;
