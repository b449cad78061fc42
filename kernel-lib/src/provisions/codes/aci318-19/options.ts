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
  ductile: flag("the steel element counts as ductile; an FRP bar never does", "17.5.3"),
  edge_reinforcement: {
    quantity: "number",
    value: 0,
    meaning:
      "0 none or less than No. 4; 1 an edge bar of at least No. 4; 2 the same with stirrups at 4 in. or closer",
    clause: "17.7.2.5",
  },
  grout_pad: flag(
    "the bar passes through a grout pad, for rows that state no grout_thickness_mm",
    "17.7.1.2.1",
  ),
  bond_table: {
    quantity: "number",
    value: 0,
    meaning:
      "0: the row's own bond stress; 1: table value, outdoor, dry to saturated, up to 175 °F (79 °C); 2: table value, indoor, dry, up to 110 °F (43 °C); the table holds under the conditions of its clause only",
    clause: "17.6.5.2.5",
  },
  sustained: flag("the tension is sustained", "17.5.2.2"),
  seismic: flag("the seismic design category is C to F (table values of bond only)", "17.6.5.2.5"),
  headed_cast_in: flag(
    "breakout of a cast-in bar is to be computed as if it were headed; a straight bar has no head",
    "17.6.2.2",
  ),
  product_k_c: {
    quantity: "number",
    value: 0,
    meaning:
      "breakout coefficient k_c by the product's evaluation in the row's crack state, in the form's own units; 0 not stated. Counts up to the cast-in value; psi_c,N is then 1",
    clause: "17.6.2.2.2",
  },
  product_c_ac: {
    quantity: "length",
    value: 0,
    meaning: "critical edge distance by the product's evaluation; 0 not stated, 2 h_ef then",
    clause: "17.9.5",
  },
  deep_breakout: flag("the 5/3-power form is to be used where 17.6.2.2.3 permits it", "17.6.2.2.3"),
  rows_share_shear: flag(
    "several rows take edge shear as R17.7.2.1 reads from memory: rows at least c_a1 apart share it, the rear row alone taking all being the other bound; closer rows do not; else the front row carries it",
    "R17.7.2.1",
  ),
  literal_steel_shear: flag(
    "the steel clause's share of the tensile strength is to be taken literally for FRP",
    "17.7.1.2",
  ),
  interaction_form: {
    quantity: "number",
    value: 0,
    meaning:
      "tension and shear together: 0 straight lines (17.8), 1 power 5/3 of the commentary (R17.8)",
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
    meaning: "distance from the inside of a hook's shaft to its tip; 0 for a straight bar",
    clause: "17.6.3.2.2b",
  },
  welded_to_plate: flag(
    "cast-in bars with heads or hooks are welded to a plate of at least 3/8 in. (10 mm) under the conditions of the clause",
    "17.7.2.2.2",
  ),
  coated_bar: {
    quantity: "number",
    value: 0,
    meaning: "0 uncoated; 1 epoxy with close cover or spacing; 2 other epoxy",
    clause: "25.4.2.5",
  },
  transverse_index: {
    quantity: "length",
    value: 0,
    meaning: "transverse reinforcement index K_tr",
    clause: "25.4.2.4",
  },
} as const satisfies Record<string, CodeOption>;
