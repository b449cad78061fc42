import type { CodeDefinition } from "../../model/definition";
import { SI } from "../../model/unit-system";
import { combinedFailure } from "./combined-failure";
import { concreteCone } from "./concrete-cone";
import { edgeFailure, sideEdgeFailure } from "./edge-shear";
import { EN1992_INTERACTIONS } from "./interaction";
import { OPTIONS } from "./options";
import { pryoutBonded, pryoutHeaded } from "./pryout";
import { splitting, splittingWithFactors } from "./splitting";
import { frpBarInShear, steelInBending, steelInShear, steelInTension } from "./steel-failure";
import { INSTALLATION_UNCOUNTED } from "../../model/installation-conditions";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";

export { concreteInteraction, steelInteraction, type InteractionCheck } from "./interaction";

/**
 * EN 1992-4:2018, design of fastenings for use in concrete, as far as it concerns bars and bonded
 * fasteners.
 */
export const en1992Fastenings: CodeDefinition = {
  id: "en1992-4-2018",
  title: "EN 1992-4, design of fastenings for use in concrete",
  edition: "2018",
  system: SI,
  covers:
    "7.2.1.3, 7.2.1.4, 7.2.1.6, 7.2.1.7, 7.2.2.3, 7.2.2.4, 7.2.2.5, Table 7.3 and the partial factors of 4.4, for bonded bars and cast-in heads in concrete cones, edges and pry-out.",
  testedBy: ANCHORS_AND_HEADS,
  options: OPTIONS,
  provisions: [
    steelInTension,
    concreteCone,
    combinedFailure,
    splitting,
    splittingWithFactors,
    steelInShear,
    steelInBending,
    frpBarInShear,
    edgeFailure,
    sideEdgeFailure(2),
    sideEdgeFailure(4),
    pryoutBonded,
    pryoutHeaded,
  ],
  installation: `${INSTALLATION_UNCOUNTED} Option gamma_inst (4.4) reduces the design value in tension by the product's sensitivity to installation; it is not taken from the columns.`,
  interactions: EN1992_INTERACTIONS,
  called: [
    {
      id: "table-7.3-steel",
      clause: "Table 7.3",
      title: "Tension and shear together, steel",
      call: "steelInteraction(tension ratio, shear ratio)",
      confidence: "H",
    },
    {
      id: "table-7.3-power",
      clause: "Table 7.3",
      title: "Tension and shear together, other failures, power 1.5",
      call: "concreteInteraction(tension ratio, shear ratio)",
      confidence: "H",
    },
    {
      id: "table-7.3-straight",
      clause: "Table 7.3",
      title: "Tension and shear together, other failures, sum of 1.2",
      call: 'concreteInteraction(tension ratio, shear ratio, "straight")',
      confidence: "H",
    },
  ],
  readings: [
    "Bars spaced beyond the characteristic spacing are no group: the rectangle is taken apart and the parts are added; the load's eccentricity stays with every part, which is continuous at that spacing and lower than statics gives beyond it.",
    "Pry-out (7.2.2.4), and splitting with the bond strength's own factors: a group is taken apart by the spacing of the cone, or of splitting. Where its bars are apart in bond, N_Rk,p leaves out the ground between them, takes psi_g,Np of those that act together only, and the nearest edge's factor for all, a little under the sum over single bars.",
    "Splitting (7.2.1.7): the bond strength in the minimum is that of one bar far from edges, N0_Rk,p, so that edges and neighbours enter once; option splitting_with_factors takes N_Rk,p.",
    "Splitting: bars farther apart than s_cr,sp are no group; the strengths of the parts are added, and a part that alone need not be checked (7.2.1.7(2)) counts with the same equation beside one that must be.",
    "Combined failure (7.2.1.6): for unequal spacings in both directions the group factor takes the mean of the two.",
    "Combined failure: s_cr,Np takes the row's own uncracked bond stress, the clause that for C20/25.",
    "Three or more near edges (7.2.1.4(8)) and narrow thin members (7.2.2.5(14)): the reduced value enters areas, strength, factors and exponents, and never exceeds the true one.",
    "Table 7.3: a test with tension and shear has the resultant that meets the first of its equations when both loads grow from zero in one proportion: steel with the least steel capacity of each action, other failures with the least of the others. An equation without a capacity of one action is not checked, and that is said. Option interaction_form takes the straight form.",
    "k_7 = 0.8 for groups of low-ductility steel only (option low_ductility).",
    "psi_sus is 1 in pry-out.",
    "The row next to the edge carries a load towards it. A load along an edge is shared by all fasteners (6.2.2.2, from memory; option front_row_along_edge lets the row next to the edge carry it). Edges 2 and 4 are checked with the angle of the load to them and the load's own eccentricity.",
    "FRP bars: no partial factor is stated. In tension the design value is withheld unless one is given (option gamma_Ms_frp): by a yield ratio of 1 the formula would give 1.4, milder than steel's 1.5 at a ratio of 0.8. In shear area times transverse shear strength is taken (no code equation) or, when asked, the steel clause literally (option literal_steel_shear).",
    "A measured strength stands for f_ck where no other is given.",
  ],
  jumps: [
    "At the characteristic spacing of a group near an edge: a bar that parts from it loses the edge factor of the others, so the sum rises.",
    "7.2.1.4(8): an edge beyond 1.5 h_ef no longer counts among three or more near ones, so the reduced depth jumps where a fourth passes it, and where a group parts.",
    "7.2.2.3.1: k_6 falls from 0.6 to 0.5 above 500 MPa; the factor for grout begins below 1 at half a diameter.",
    "7.2.2.4: k_8 doubles at 60 mm of embedment where the product states none.",
    "7.2.1.4(9): compression beside the cone counts from an edge distance of 1.5 h_ef on, at once.",
    "6.2.2.2: all rows share a load that runs exactly along an edge (load_angle 0 for edges 2 and 4, 90 for edge 1), the row next to the edge carries any other.",
    "7.2.2.5(6): the load-bearing length of deep bars steps from 12 diameters, 288 mm, to 300 mm above a diameter of 24 mm.",
  ],
  gaps: [
    "Pull-out and blow-out of heads: no concern of straight bars.",
    "The reduced depth for three or more near edges in combined pull-out and cone failure: the form of the clause could not be verified.",
    "Product values (bond stress, k_8, c_cr,sp, h_min, psi0_sus) come from the product's approval; they are inputs or options here.",
    "Resistance of supplementary reinforcement (7.2.1.9, 7.2.2.6); its effect on pry-out is an option.",
    "Load paths in which one of tension and shear is held while the other grows; interaction with a lever arm.",
    "Seismic, fire and fatigue annexes; displacements.",
  ],
};
