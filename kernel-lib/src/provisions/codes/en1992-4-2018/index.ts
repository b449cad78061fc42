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
    "7.2.1.3, 7.2.1.4, 7.2.1.6, 7.2.1.7, 7.2.2.3, 7.2.2.4, 7.2.2.5, Table 7.3 and the partial factors of 4.4, for bonded bars, and for cast-in heads in concrete cone, concrete edge and pry-out failure.",
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
  installation: `${INSTALLATION_UNCOUNTED} Option gamma_inst (4.4) reduces the design resistance in tension for sensitivity to installation; it is not read from the columns.`,
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
    "Bars spaced farther apart than the characteristic spacing do not act as a group: the group is divided and the resistances of its parts are added. Every part keeps the load eccentricity of the whole, which is continuous at that spacing and gives less than statics beyond it.",
    "Pry-out (7.2.2.4), and splitting with the factors of the bond strength: a group is divided by the characteristic spacing of the cone or of splitting. Where its bars do not act together in bond, N_Rk,p excludes the projected area between them, psi_g,Np includes only bars that act together, and the edge factor of the nearest edge applies to all bars. The result is slightly below the sum for single bars.",
    "Splitting (7.2.1.7): the bond strength in the minimum is that of one bar remote from edges, N0_Rk,p, so that edges and adjacent bars are considered only once. Option splitting_with_factors uses N_Rk,p.",
    "Splitting: bars farther apart than s_cr,sp do not act as a group, and the resistances of the parts are added. A part that would not need the check by itself (7.2.1.7(2)) is included with the same equation if another part needs it.",
    "Combined failure (7.2.1.6): for unequal spacings in the two directions, the group factor uses their mean.",
    "Combined failure: s_cr,Np uses the uncracked bond stress of the row, whereas the clause uses that for C20/25.",
    "Three or more near edges (7.2.1.4(8)) and narrow, thin members (7.2.2.5(14)): the reduced value is used in areas, strength, factors and exponents, and never exceeds the actual value.",
    "Table 7.3: the capacity of a test in tension and shear is the resultant load at which the first of its equations is met, with both loads increased from zero in a constant ratio. The steel equation uses the lowest steel capacity of each action, the other equation the lowest of the other capacities. An equation that lacks the capacity of one action is reported as not checked. Option interaction_form selects the straight-line form.",
    "k_7 = 0.8 for groups of low-ductility steel only (option low_ductility).",
    "In pry-out, psi_sus is 1.",
    "A load toward an edge is resisted by the row nearest that edge. A load along an edge is shared by all fasteners (6.2.2.2, from memory) or, with option front_row_along_edge, resisted by the row nearest the edge. Edges 2 and 4 are checked with the angle of the load to them and the eccentricity of the load.",
    "FRP bars: no partial factor is stated. In tension, no design resistance is given unless option gamma_Ms_frp states one, because the formula with a yield ratio of 1 would give 1.4, less than the 1.5 of steel with a ratio of 0.8. In shear, the resistance is the area times the transverse shear strength (no code equation) or, with option literal_steel_shear, that of the steel clause applied literally.",
    "A measured strength is used as f_ck where no other is given.",
  ],
  jumps: [
    "At the characteristic spacing of a group near an edge: a bar that leaves the group is no longer reduced by the edge factor of the others, which raises the sum.",
    "7.2.1.4(8): an edge beyond 1.5 h_ef is no longer one of the three or more near edges. The reduced depth jumps where a fourth edge passes that distance, and where a group is divided.",
    "7.2.2.3.1: k_6 decreases from 0.6 to 0.5 above 500 MPa. The factor for grout drops below 1 at a thickness of half a diameter.",
    "7.2.2.4: without a product value, k_8 doubles at an embedment of 60 mm.",
    "7.2.1.4(9): the factor for compression near the cone applies in full from an edge distance of 1.5 h_ef.",
    "6.2.2.2: all rows share a load exactly parallel to an edge (load_angle 0 for edges 2 and 4, 90 for edge 1); the row nearest the edge resists any other load.",
    "7.2.2.5(6): above a diameter of 24 mm, the load-bearing length of deep bars increases from 12 diameters (288 mm) to 300 mm.",
  ],
  gaps: [
    "Pull-out and blow-out of heads, which do not apply to straight bars.",
    "The reduced depth for three or more near edges in combined pull-out and cone failure, which could not be verified.",
    "Product values (bond stress, k_8, c_cr,sp, h_min, psi0_sus), which come from the product approval and are inputs or options here.",
    "Resistance of supplementary reinforcement (7.2.1.9, 7.2.2.6); its effect on pry-out is an option.",
    "Load paths with one of tension and shear constant while the other increases; interaction with a lever arm.",
    "Seismic, fire and fatigue annexes; displacements.",
  ],
};
