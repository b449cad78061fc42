import type { Comparison, CountedReason, RatioGroup } from "../../comparison";
import type { Study } from "../../dataset";
import type { Figure } from "../../figures";
import type {
  BallotSheet,
  BeforeAfter,
  DerivedFactor,
  GroupStanding,
  Proposal,
} from "../../proposals";
import type { Table } from "../../tables";
import type { Draft } from "../draft";
import type { BallotComment } from "./comments";
import type { SensitivityResults } from "./sensitivity-section";

/** What a packet is built from: results, not sentences. */
export interface PacketResults {
  /** Title of the proposal. */
  readonly title: string;
  /** The caution shown wherever results are. */
  readonly caution: string;
  readonly studies: readonly Study[];
  readonly comparison: Comparison;
  /** Groups of the comparison on which the case rests. */
  readonly groups: readonly RatioGroup[];
  /** Groups of every mode, by mode and material; those of the case among them. */
  readonly everyMode: readonly RatioGroup[];
  /** Groups of the changed modes by mode, material and study. */
  readonly byStudy: readonly RatioGroup[];
  readonly factors: readonly DerivedFactor[];
  readonly proposals: readonly Proposal[];
  /** The ballot sheets, one a changed provision; none without a change. */
  readonly sheets: readonly BallotSheet[];
  /**
   * The draft of each proposal, as the researcher left it; without them the packet says the change
   * in one sentence each.
   */
  readonly drafts?: readonly Draft[];
  readonly change: BeforeAfter;
  /** Where each group stands with the proposals; left out, the packet names the verdicts alone. */
  readonly standings?: readonly GroupStanding[];
  /** Other codes, alternatives and other choices; the packet has no such section without them. */
  readonly sensitivity?: SensitivityResults;
  readonly question: { readonly fractile: number; readonly confidence: number };
  readonly figures: readonly Figure[];
  readonly tables: readonly Table[];
  readonly beforeAfter: { readonly figure: Figure; readonly table: Table };
  readonly excluded: Table;
  /** Rows that reading rejected, by reason; none when left out. */
  readonly rejected?: readonly CountedReason[];
  /** Comments of a committee on file; the packet has no such section without them. */
  readonly comments?: readonly BallotComment[];
  /** `results.json` of an earlier packet, and its folder as named. */
  readonly earlier?: { readonly results: string; readonly folder: string };
  readonly colophon: Table;
}
