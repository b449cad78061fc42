import type { DetailCheck } from "../../model/detail-check";
import type { CodeOption } from "../../model/definition";
import { whether } from "../../model/yes-or-no";

/** What the placing checks ask of the user beside the data. */
export const DETAIL_OPTIONS: Readonly<Record<string, CodeOption>> = {
  torqued: {
    quantity: "number",
    value: 0,
    meaning: whether("the cast-in bars will be torqued"),
    clause: "17.9.2",
  },
  cover_required: {
    quantity: "length",
    value: 0,
    meaning: "cover required by 20.5.1.3; 0 if not stated",
    clause: "17.9.2",
  },
  aggregate: {
    quantity: "length",
    value: 0,
    meaning: "maximum aggregate size; 0 if not stated",
    clause: "17.9.2",
  },
  product_spacing: {
    quantity: "length",
    value: 0,
    meaning:
      "minimum spacing from the product evaluation; 0 if not stated, for which 6 diameters are used",
    clause: "17.9.2",
  },
  product_edge: {
    quantity: "length",
    value: 0,
    meaning:
      "minimum edge distance from the product evaluation; 0 if not stated, for which 6 diameters are used",
    clause: "17.9.2",
  },
  product_thickness: {
    quantity: "length",
    value: 0,
    meaning:
      "minimum member thickness from the product evaluation; 0 if not stated, for which the embedment plus two hole diameters is used",
    clause: "17.9.4",
  },
};

const SPACING = "min(if(n_x > 1, s_x, 1 / 0), if(n_y > 1, s_y, 1 / 0))";
const EDGE = "min(c_1, c_2, c_3, c_4)";

/**
 * Least spacing, edge distance and thickness, 17.9 (any unit system; multiples of the diameter).
 */
export const ACI318_DETAIL_CHECKS: readonly DetailCheck[] = [
  {
    id: "spacing-cast-in",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 0 && n_x * n_y > 1",
    value: SPACING,
    least: "4 * d_a",
    says: "minimum spacing of cast-in bars that are not torqued: 4 diameters",
    confidence: "H",
  },
  {
    id: "spacing-torqued",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 1 && n_x * n_y > 1",
    value: SPACING,
    least: "6 * d_a",
    says: "minimum spacing of torqued cast-in bars: 6 diameters",
    confidence: "H",
  },
  {
    id: "edge-cast-in",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 0 && cover_required > 0",
    value: `${EDGE} - d_a / 2`,
    least: "cover_required",
    says: "minimum edge distance of cast-in bars that are not torqued: the required cover",
    confidence: "H",
  },
  {
    id: "edge-torqued",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 1",
    value: EDGE,
    least: "6 * d_a",
    says: "minimum edge distance of torqued cast-in bars: 6 diameters",
    confidence: "H",
  },
  {
    id: "spacing-adhesive",
    clause: "17.9.2(a)",
    concerns: "post_installed == 1 && n_x * n_y > 1",
    value: SPACING,
    least: "if(product_spacing > 0, product_spacing, 6 * d_a)",
    says: "minimum spacing of post-installed bars: from the product evaluation, otherwise 6 diameters (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-adhesive",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1",
    value: EDGE,
    least: "if(product_edge > 0, product_edge, 6 * d_a)",
    says: "minimum edge distance of adhesive bars: from the product evaluation, otherwise 6 diameters (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-aggregate",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1 && aggregate > 0",
    value: EDGE,
    least: "2 * aggregate",
    says: "minimum edge distance of post-installed bars: twice the maximum aggregate size (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-cover",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1 && cover_required > 0",
    value: `${EDGE} - d_a / 2`,
    least: "cover_required",
    says: "minimum edge distance of post-installed bars: the required cover (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "thickness-adhesive",
    clause: "17.9.4",
    concerns: "post_installed == 1",
    value: "h_a",
    least: "if(product_thickness > 0, product_thickness, h_ef + 2 * d_0)",
    says: "minimum member thickness of adhesive bars: from the product evaluation, otherwise the embedment plus two hole diameters, a common evaluation value (to be checked against a licensed copy)",
    confidence: "M",
  },
];
