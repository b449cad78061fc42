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
    "Chapter 17 for bars bonded into drilled holes and for cast-in heads and hooks: 17.2.4, 17.3, 17.5.1 to 17.5.3, 17.6.1 to 17.6.5, 17.7.1 to 17.7.3, 17.8, 17.9. Chapter 25: 25.4.2, as a development length and as the force developed at an embedment.",
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
    `${INSTALLATION_UNCOUNTED} Two options represent them: installation_category (17.5.3) reduces the design strength for sensitivity to installation, ` +
    "and bond_table (17.6.5.2.5) selects the table bond stress for one of two environments (moisture and temperature). Neither is read from the columns.",
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
    "The lightweight factors of 17.2.4.1 apply to lightweight concrete only; in normal-weight concrete they are 1.",
    "Bars spaced farther apart than the critical spacing do not act as a group: the group is divided and the capacities of its parts are added. The projected area of a part is its outer rectangle, at most n times that of one bar.",
    "Where a group is divided, every part keeps the load eccentricity of the whole. This is continuous at the critical spacing; beyond it, the capacity is lower than by statics.",
    "Pryout (17.7.3): a group is divided beyond the larger of the critical spacings in bond and breakout. Where bars act together in only one of the two modes, the projected area for the other mode excludes the concrete between them, and the edge factor of the nearest edge applies to all bars. The result is slightly below k_cp times the sum for single bars and never above it.",
    "Three or more near edges (17.6.2.1.2): the reduced depth is used in the areas, N_b, psi_ec,N and psi_ed,N, and the actual depth in psi_cp,N. It never exceeds the actual depth. No reduction is made for bond.",
    "Narrow, thin members (17.7.2.1.2): the reduced c_a1 is used in the area, V_b and every factor, and never exceeds the actual c_a1.",
    "Post-installed means bonded with adhesive: k_c = 17, psi_c,N = 1.4 and c_ac = 2 h_ef, unless product values are stated (options product_k_c, product_c_ac).",
    "A straight cast-in bar has no head: breakout is computed only with option headed_cast_in, and its bond follows 25.4.2, not 17.6.5.",
    "25.4.2: the yield strength stated in the row limits the stress, and psi_g is that of the nearest grade (limits at midpoints: 70 and 90 ksi; 485 and 620 MPa). Option steel_grade applies to rows without a stated yield strength.",
    "25.4.2 is for cast-in bars. For a bar bonded into a drilled hole it gives no value and cannot govern, unless option drilled_in_for_comparison is set.",
    "Shear toward an edge, several rows: by default the row nearest the edge resists the shear. By R17.7.2.1 (from memory), the strength for rows at least c_a1 apart is the smaller of two cases: the front row resists its share, or the rear row resists the whole shear. For closer rows the front row resists the shear; for bars welded to a plate (option welded_to_plate, cast in) the rear row alone does. The hand calculation prints both interpretations; option rows_share_shear selects the second. In both, bars farther apart along the edge than 3 c_a1 are calculated separately, although the breakout bodies of their rear rows may overlap.",
    "A load parallel to an edge (17.7.2.1(c)) is checked for edges 2 and 4, with the row nearest that edge and the eccentricity of the load.",
    "17.8: the capacity of a test in tension and shear is the resultant load that satisfies the interaction equation, with both loads increased from zero in a constant ratio and the lowest capacity of each action. Option interaction_form applies R17.8 instead of the straight lines.",
    "FRP bars do not yield: the limits on f_uta do not apply to them and they are treated as brittle. Their shear strength is the area times the transverse shear strength (no code equation) or, with option literal_steel_shear, that of the steel clause applied literally.",
    "17.6.5.1.2: c_Na depends on the bond stress in uncracked concrete. Where that stress is blank, no capacity is given in cracked concrete if c_Na matters. It does not matter for a single bar with every edge farther than c_Na at 1000/300 times the cracked bond stress, the largest ratio in the table of the edition: all factors are then 1 at any lower stress.",
    "The factors of the bond table for sustained tension and seismic loads apply to the critical distance as well as to the strength.",
  ],
  jumps: [
    "At the critical spacing of a group near an edge: a bar that leaves the group is no longer reduced by the edge factor of the others, which raises the sum.",
    "17.6.2.1.2: an edge beyond 1.5 h_ef is no longer one of the three or more near edges. The reduced depth jumps where a fourth edge passes that distance, and where a group is divided.",
    "17.7.3: k_cp doubles at an embedment of 2.5 in. (65 mm).",
    "17.6.2.2.3: the 5/3-power equation gives 0.6 % less than the general one at 11 in. (280 mm) and 14 % more at 25 in. (635 mm).",
    "R17.7.2.1 (option rows_share_shear): the rows share the shear from a spacing of c_a1.",
    "25.4.2: the size factor lowers the stress by one fifth from No. 6 to No. 7, and the grade factor changes in steps. 25.4.2.3 changes in steps with cover and spacing.",
  ],
  gaps: [
    "The 2025 edition is not coded because its changes could not be verified.",
    "Expansion, screw and undercut anchors, headed studs in shear (factor 1.0) and separate sleeves, which are not bonded or embedded bars.",
    "The minimum thickness of 17.9.4 for expansion, screw and undercut anchors; seismic design (17.10); attachments with shear lugs (17.11); anchor reinforcement (17.5.2.1).",
    "Edge breakout of intermediate rows.",
    "The minimum transverse reinforcement for closely spaced bars of Grade 80 and above (25.4.2.2, from memory) is not checked.",
    "17.8: load paths with one load constant while the other increases.",
    "Age of the concrete at installation (17.2.2), which is not in the data. Its temperature is in the data, but the minimum of 26.7.2 is not checked.",
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
