import type { ParagraphName } from "../../exports/draft";
import type { Setting } from "../results/result";
import type { BallotTexts } from "./ballot-page";
import type { FindingsTold } from "./proposal-findings";

/** The researcher's words for paragraphs of one draft; numbers by placeholders only. */
export type ParagraphTexts = { readonly [P in ParagraphName]?: string } & BallotTexts;

/** What a proposal is told. */
export interface ProposalTold extends FindingsTold {
  readonly setting: Setting;
  /** Code, level and conditions in words; default code and level. */
  readonly basis?: string;
  readonly step: number;
  /** Why there is no change, where there is none. */
  readonly nothing: string;
  readonly texts?: Readonly<Record<string, ParagraphTexts>>;
}
