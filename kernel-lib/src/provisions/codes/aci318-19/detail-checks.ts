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
    meaning: "cover that 20.5.1.3 requires; 0 not stated",
    clause: "17.9.2",
  },
  aggregate: {
    quantity: "length",
    value: 0,
    meaning: "largest aggregate size; 0 not stated",
    clause: "17.9.2",
  },
  product_spacing: {
    quantity: "length",
    value: 0,
    meaning: "least spacing by the product's evaluation; 0 not stated, 6 diameters then",
    clause: "17.9.2",
  },
  product_edge: {
    quantity: "length",
    value: 0,
    meaning: "least edge distance by the product's evaluation; 0 not stated, 6 diameters then",
    clause: "17.9.2",
  },
  product_thickness: {
    quantity: "length",
    value: 0,
    meaning:
      "least member thickness by the product's evaluation; 0 not stated, embedment and twice the hole then",
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
    says: "spacing of cast-in bars that are not torqued: 4 diameters",
    confidence: "H",
  },
  {
    id: "spacing-torqued",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 1 && n_x * n_y > 1",
    value: SPACING,
    least: "6 * d_a",
    says: "spacing of torqued cast-in bars: 6 diameters",
    confidence: "H",
  },
  {
    id: "edge-cast-in",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 0 && cover_required > 0",
    value: `${EDGE} - d_a / 2`,
    least: "cover_required",
    says: "edge distance of cast-in bars that are not torqued: the required cover",
    confidence: "H",
  },
  {
    id: "edge-torqued",
    clause: "17.9.2(a)",
    concerns: "post_installed == 0 && torqued == 1",
    value: EDGE,
    least: "6 * d_a",
    says: "edge distance of torqued cast-in bars: 6 diameters",
    confidence: "H",
  },
  {
    id: "spacing-adhesive",
    clause: "17.9.2(a)",
    concerns: "post_installed == 1 && n_x * n_y > 1",
    value: SPACING,
    least: "if(product_spacing > 0, product_spacing, 6 * d_a)",
    says: "spacing of post-installed bars: the product's, else 6 diameters (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-adhesive",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1",
    value: EDGE,
    least: "if(product_edge > 0, product_edge, 6 * d_a)",
    says: "edge distance of adhesive bars: the product's, else 6 diameters (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-aggregate",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1 && aggregate > 0",
    value: EDGE,
    least: "2 * aggregate",
    says: "edge distance of post-installed bars: twice the largest aggregate (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "edge-cover",
    clause: "17.9.2(b)",
    concerns: "post_installed == 1 && cover_required > 0",
    value: `${EDGE} - d_a / 2`,
    least: "cover_required",
    says: "edge distance of post-installed bars: the required cover (to be checked against a licensed copy)",
    confidence: "M",
  },
  {
    id: "thickness-adhesive",
    clause: "17.9.4",
    concerns: "post_installed == 1",
    value: "h_a",
    least: "if(product_thickness > 0, product_thickness, h_ef + 2 * d_0)",
    says: "member thickness of adhesive bars: the product's, else embedment and twice the hole diameter, a common evaluation value (to be checked against a licensed copy)",
    confidence: "M",
  },
];
