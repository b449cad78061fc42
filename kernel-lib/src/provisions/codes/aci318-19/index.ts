import type { CodeDefinition } from "../../model/definition";
import type { DevelopmentLengthRule } from "../../model/development-length";
import { bondInTension } from "./bond-tension";
import { breakoutInShear, breakoutParallelToEdge } from "./breakout-shear";
import { breakoutInTension } from "./breakout-tension";
import { ACI318_DETAIL_CHECKS, DETAIL_OPTIONS } from "./detail-checks";
import { DEVELOPMENT_OPTIONS, developedForce, lengthForStress } from "./development";
import { simplifiedLength } from "./simplified-development";
import { IN_LB, METRIC, type Form } from "./form";
import { ACI318_INTERACTIONS } from "./interaction";
import { OPTIONS } from "./options";
import { pryoutInShear } from "./pryout";
import { headedPullout, hookedPullout } from "./pullout";
import { sideFaceBlowout } from "./side-face-blowout";
import { sustainedTension } from "./sustained-tension";
import { barStrengthInShear, barStrengthInTension, frpBarInShear } from "./steel-strength";
import { INSTALLATION_UNCOUNTED } from "../../model/installation-conditions";
import { ANCHORS_AND_HEADS } from "../../model/tested-by";

const edition = (id: string, form: Form): CodeDefinition => ({
  id,
  title: "ACI 318-19 Chapter 17, anchoring to concrete, and development of bars",
  edition:
    form.name === "in-lb"
      ? "2019, inch-pound form"
      : "2019, metric form (its own rounded coefficients)",
  system: form.system,
  covers:
    "Chapter 17 for bars bonded into drilled holes and cast-in heads and hooks: 17.2.4, 17.3, 17.5.1 to 17.5.3, 17.6.1 to 17.6.5, 17.7.1 to 17.7.3, 17.8, 17.9; Chapter 25: 25.4.2 both ways.",
  testedBy: ANCHORS_AND_HEADS,
  options: { ...OPTIONS, ...DEVELOPMENT_OPTIONS, ...DETAIL_OPTIONS },
  provisions: [
    barStrengthInTension(form),
    breakoutInTension(form),
    bondInTension(form),
    sustainedTension(form),
    developedForce(form),
    headedPullout(form.strengthCastIn),
    hookedPullout(form.strengthCastIn),
    sideFaceBlowout(form),
    barStrengthInShear(form),
    frpBarInShear,
    breakoutInShear(form),
    breakoutParallelToEdge(form, 2),
    breakoutParallelToEdge(form, 4),
    pryoutInShear(form),
  ],
  installation:
    `${INSTALLATION_UNCOUNTED} Two options stand for them: installation_category (17.5.3) reduces the design value by the product's sensitivity to installation, ` +
    "and the table stress of bond_table (17.6.5.2.5) is that of one of two environments with their moisture and temperature; neither is taken from the columns.",
  checks: ACI318_DETAIL_CHECKS,
  interactions: ACI318_INTERACTIONS,
  called: [
    {
      id: "17.8",
      clause: "17.8",
      title: "Tension and shear together, straight lines",
      call: "trilinearInteraction(tension ratio, shear ratio)",
      confidence: "H",
    },
    {
      id: "R17.8",
      clause: "R17.8",
      title: "Tension and shear together, power 5/3",
      call: "powerInteraction(tension ratio, shear ratio)",
      confidence: "H",
    },
  ],
  readings: [
    "The lightweight factors of 17.2.4.1 concern lightweight concrete only; in normal-weight concrete they are 1.",
    "Bars spaced beyond the critical spacing are no group: the rectangle is taken apart and the parts are added; the projected area of a part is its outer rectangle, at most n times that of one bar.",
    "Where a group is taken apart, the load's eccentricity stays with every part: continuous at the critical spacing, lower than statics gives beyond it.",
    "Pryout (17.7.3): a group is taken apart beyond the larger critical spacing of bond and breakout. Where only one of the two holds bars together, the areas of the other leave out the ground between them and the nearest edge's factor holds for all: a little under k_cp times the sum over single bars, never above it.",
    "Three or more near edges (17.6.2.1.2): the reduced depth enters the areas, N_b, psi_ec,N and psi_ed,N; the true depth stays in psi_cp,N; none for bond. It never exceeds the true depth.",
    "Narrow thin members (17.7.2.1.2): the reduced c_a1 enters the area, V_b and every factor, and never exceeds the true one.",
    "Post-installed means bonded by adhesive: k_c 17, psi_c,N 1.4, c_ac 2 h_ef unless the product's values are stated (options product_k_c, product_c_ac).",
    "A straight cast-in bar has no head: breakout is computed only when asked (option headed_cast_in); its bond follows 25.4.2, not 17.6.5.",
    "25.4.2: a yield strength that the row states limits the stress, and psi_g is that of the nearest grade (limits halfway, 70 and 90 ksi; 485 and 620 MPa); option steel_grade is for rows that state none.",
    "25.4.2 is for cast-in bars. For a bar bonded into a drilled hole it is withheld, so that it never governs there, unless asked for as a comparison (option drilled_in_for_comparison).",
    "Shear towards an edge, several rows: the row next to the edge carries it. R17.7.2.1 (from memory) reads, for rows at least c_a1 apart, the lesser of the front row taking its share and the rear row taking all; for closer rows the front row; for bars welded to a plate (option welded_to_plate, cast in) the rear row alone. Both are printed; option rows_share_shear takes the second. Bars apart along the edge (beyond 3 c_a1) are taken by themselves in both, though their rear rows may draw on the same ground.",
    "A load parallel to an edge (17.7.2.1(c)) is checked for edges 2 and 4, with the row next to that edge and the load's own eccentricity.",
    "17.8: a test with tension and shear has the resultant that meets the interaction when both loads grow from zero in one proportion, from the least capacity of each action; option interaction_form takes R17.8 in place of the straight lines.",
    "FRP bars have no yield: the caps on f_uta do not concern them, they count as brittle, and in shear either area times transverse shear strength is taken (no code equation) or, when asked, the steel clause literally (option literal_steel_shear).",
    "17.6.5.1.2: a blank bond stress of uncracked concrete withholds the capacity in cracked concrete where c_Na is read. A single bar keeps it while every edge is farther than c_Na at 1000/300 of the cracked stress, the largest ratio of the edition's own table: all factors are 1 then, whatever the stress is below that.",
    "Sustained tension and seismic factors of the bond table enter the critical distance as well as the strength.",
  ],
  jumps: [
    "At the critical spacing of a group near an edge: a bar that parts from it loses the edge factor of the others, so the sum rises.",
    "17.6.2.1.2: an edge beyond 1.5 h_ef no longer counts among three or more near ones, so the reduced depth jumps where a fourth passes it, and where a group parts.",
    "17.7.3: k_cp doubles at 2.5 in. (65 mm) of embedment.",
    "17.6.2.2.3: the 5/3-power form begins 0.6 % below the other at 11 in. and ends 14 % above it at 25 in. (280 and 635 mm).",
    "R17.7.2.1 (option rows_share_shear): at a spacing of c_a1 the rows begin to share the shear.",
    "25.4.2: the size factor leaves a fifth of the stress behind from No. 6 to No. 7, the grade factor steps by grade; 25.4.2.3 steps with cover and spacing.",
  ],
  gaps: [
    "The 2025 edition is not coded: its changes could not be verified.",
    "Expansion, screw and undercut anchors, headed studs in shear (whose factor is 1.0), separate sleeves: no bonded or embedded bars.",
    "The thickness rule of 17.9.4 for expansion, screw and undercut anchors; the seismic clauses of 17.10; attachments with shear lugs (17.11); anchor reinforcement (17.5.2.1).",
    "Edge breakout of rows between the first and the last.",
    "The least transverse reinforcement of closely spaced bars of Grade 80 and above (25.4.2.2, from memory) is not judged.",
    "17.8: load paths in which one load is held while the other grows.",
    "Age of the concrete at installation (17.2.2): not in the data. Its temperature is; the least one of 26.7.2 is not judged.",
  ],
});

/** ACI 318-19 Chapter 17 in inch-pound form: the code. */
export const aci318 = edition("aci318-19", IN_LB);

/** ACI 318-19 Chapter 17 in its separate metric form. */
export const aci318Metric = edition("aci318-19m", METRIC);

export const aci318Length: DevelopmentLengthRule = {
  code: aci318,
  definition: lengthForStress(IN_LB),
};
export const aci318MetricLength: DevelopmentLengthRule = {
  code: aci318Metric,
  definition: lengthForStress(METRIC),
};
export const aci318SimplifiedLength: DevelopmentLengthRule = {
  code: aci318,
  definition: simplifiedLength(IN_LB),
};
export const aci318MetricSimplifiedLength: DevelopmentLengthRule = {
  code: aci318Metric,
  definition: simplifiedLength(METRIC),
};

export { powerInteraction, trilinearInteraction, type InteractionResult } from "./interaction";
export { ACI318_DETAIL_CHECKS } from "./detail-checks";
