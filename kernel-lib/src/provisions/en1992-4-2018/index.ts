import type { CodeDefinition } from "../model/definition";
import { SI } from "../model/unit-system";
import { combinedFailure } from "./combined-failure";
import { concreteCone } from "./concrete-cone";
import { edgeFailure, sideEdgeFailure } from "./edge-shear";
import { OPTIONS } from "./options";
import { pryoutBonded, pryoutHeaded } from "./pryout";
import { splitting } from "./splitting";
import { frpBarInShear, steelInBending, steelInShear, steelInTension } from "./steel-failure";

export { concreteInteraction, steelInteraction, type InteractionCheck } from "./interaction";

/** EN 1992-4:2018, design of fastenings for use in concrete, as far as it concerns bars and bonded fasteners. */
export const en1992Fastenings: CodeDefinition = {
  id: "en1992-4-2018",
  title: "EN 1992-4, design of fastenings for use in concrete",
  edition: "2018",
  system: SI,
  options: OPTIONS,
  provisions: [
    steelInTension, concreteCone, combinedFailure, splitting, steelInShear, steelInBending, frpBarInShear, edgeFailure, sideEdgeFailure(2), sideEdgeFailure(4), pryoutBonded, pryoutHeaded,
  ],
  gaps: [
    "Pull-out and blow-out of heads: no concern of straight bars.",
    "Grout layers in shear: the conditions could not be verified.",
    "The reduced depth for three or more near edges in combined pull-out and cone failure: the form of the clause could not be verified.",
    "Product values (bond stress, k_8, c_cr,sp, h_min, psi0_sus) come from the product's approval; they are inputs or options here.",
    "Seismic, fire and fatigue annexes.",
  ],
};
