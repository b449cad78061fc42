import type { BeforeAfter, ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import { beforeAfterTable } from "../../tables";
import type { Block, DocumentModel } from "../document/document";
import { blocksLatex } from "../document/blocks-latex";
import { blocksMarkdown } from "../document/blocks-markdown";
import { blocksText } from "../document/blocks-text";
import { draftFormulas, draftSymbols } from "./draft-formulas";
import {
  checkTyped,
  filled,
  firstParagraphs,
  type DraftParagraph,
  type ParagraphName,
} from "./draft-paragraphs";
import { groupsChangedBy } from "./groups-changed";
import { clauseBefore, draftValues } from "./draft-values";

/** What a draft rests on beside the proposal. */
export interface DraftResults {
  readonly code: CodeDefinition;
  /**
   * The comparison with and without the proposal; without it the draft has no table of evidence.
   */
  readonly change?: BeforeAfter;
  readonly question?: { readonly fractile: number; readonly confidence: number };
  /** The caution that stands at the end and cannot be edited. */
  readonly caution?: string;
}

const CAUTION =
  "A proposal is evidence for a committee, not a design rule. Failures of anchorages can kill: design follows the code in force and a licensed engineer.";

/**
 * Draft of a provision and its commentary, the change marked. A draft cannot change: `replace`
 * gives a new one. It shows itself in a notebook and writes Markdown, HTML, LaTeX, plain text and
 * DOCX from one list of blocks.
 */
export class Draft {
  readonly proposal: ProposedChange;
  readonly paragraphs: readonly DraftParagraph[];
  /** What the placeholders stand for, e.g. `factor`, `least_after`. */
  readonly values: Readonly<Record<string, string>>;
  readonly #results: DraftResults;
  readonly #provision: ProvisionDefinition;

  constructor(proposal: ProposedChange, results: DraftResults, edited?: readonly DraftParagraph[]) {
    [this.proposal, this.#results] = [proposal, results];
    this.#provision = provisionOf(proposal, results.code);
    const { fractile = 0.05, confidence = 0.9 } = results.question ?? {};
    const groups = groupsChangedBy(proposal, results.code, results.change);
    this.values = draftValues(
      proposal,
      results.code,
      this.#provision,
      groups,
      `${100 * fractile} % fractile at ${100 * confidence} % confidence, series effect included`,
    );
    this.paragraphs = edited ?? firstParagraphs(proposal, groups);
  }

  /**
   * The draft with one paragraph written anew. Numbers are given by placeholders only, so that none
   * is typed.
   * @param text the new paragraph, e.g. "Bars of glass slip earlier; hence {symbol} is {factor}."
   * @throws Error for a paragraph that the draft has not, a typed number, or a placeholder without
   *   a value
   * @example
   * draftText(proposal, { code, change }).replace("commentary", "{rationale} It rests on {evidence}.")
   */
  replace(name: ParagraphName, text: string): Draft {
    if (!this.paragraphs.some((one) => one.name === name))
      throw new Error(
        `The draft has no paragraph "${String(name)}" to write anew; expected one of ${this.paragraphs.map((one) => one.name).join(", ")}. The caution cannot be changed.`,
      );
    checkTyped(name, text);
    filled(text, this.values);
    return new Draft(
      this.proposal,
      this.#results,
      this.paragraphs.map((one) => (one.name === name ? { ...one, text } : one)),
    );
  }

  /**
   * The draft as blocks of the packet's document; a document that has its own caution may leave
   * this one out.
   */
  blocks(options: { readonly caution?: boolean } = {}): Block[] {
    const { proposal } = this;
    const { code, change } = this.#results;
    const of = (part: DraftParagraph["part"], name?: ParagraphName): DraftParagraph[] =>
      this.paragraphs.filter(
        (one) =>
          one.part === part && (name === undefined ? one.name !== "rule" : one.name === name),
      );
    const groups = groupsChangedBy(proposal, code, change);
    const piece = (one: DraftParagraph): { text: string; change?: "inserted" } => ({
      text: filled(one.text, this.values),
      ...(one.change ? { change: one.change } : {}),
    });
    return [
      {
        kind: "provision",
        title: `${clauseBefore(this.#provision.id)}${this.#provision.title}`,
        pieces:
          "kind" in proposal && proposal.kind === "addition"
            ? [{ text: `New section: ${this.#provision.title}.`, change: "inserted" }]
            : of("provision", "rule").map(piece),
      },
      ...draftFormulas(proposal, this.#provision, code),
      ...of("provision").map((one): Block => ({
        kind: "provision",
        title: "",
        pieces: [piece(one)],
      })),
      { kind: "list", items: draftSymbols(proposal, this.#provision, code) },
      { kind: "provision", title: "Commentary", pieces: [] },
      ...of("commentary").map((one): Block => ({
        kind: "paragraph",
        text: filled(one.text, this.values),
      })),
      ...(groups.length > 0 && change
        ? [
            {
              kind: "table" as const,
              table: beforeAfterTable(
                { ...change, groups },
                {
                  id: `evidence-${proposal.id.toLowerCase().replace(/[^a-z0-9-]+/g, "-")}`,
                  title: `Evidence for ${proposal.title}: the groups it changes`,
                },
              ),
            },
          ]
        : []),
      ...(options.caution === false
        ? []
        : [{ kind: "caution" as const, text: this.#results.caution ?? CAUTION }]),
    ];
  }

  toText(): string {
    return blocksText(this.blocks());
  }

  toMarkdown(): string {
    return blocksMarkdown(this.blocks());
  }

  /** LaTeX for a document that loads booktabs and ulem (with normalem), which draws the marks. */
  toLatex(): string {
    return blocksLatex(this.blocks());
  }

  /** A page with `<ins>` and `<del>`, equations as MathML. */
  async toHtml(): Promise<string> {
    return (await import("../document/document-html.js")).documentHtml(this.#model());
  }

  /** A document with real underline and strikethrough and equations that can be edited. */
  async toDocx(): Promise<Uint8Array> {
    return (await import("../document/document-docx.js")).documentDocx(this.#model());
  }

  /** What a notebook shows. */
  [Symbol.for("code-comparison.display")](): {
    readonly "text/markdown": string;
    readonly "text/plain": string;
  } {
    return { "text/markdown": this.toMarkdown(), "text/plain": this.toText() };
  }

  #model(): DocumentModel {
    return {
      title: this.proposal.title,
      subtitle: `Draft of a change of ${this.#results.code.title}`,
      caution: this.#results.caution ?? CAUTION,
      stamp: "Draft; research use, not for design",
      sections: [{ id: "draft", title: "Draft text", blocks: this.blocks() }],
    };
  }
}

function provisionOf(proposal: ProposedChange, code: CodeDefinition): ProvisionDefinition {
  if ("kind" in proposal && proposal.kind === "addition") return proposal.provision;
  const found = code.provisions.find(({ id }) => id === proposal.changes);
  if (!found)
    throw new Error(
      `Proposal ${proposal.id} changes "${proposal.changes}"; expected one of ${code.provisions.map(({ id }) => id).join(", ")}.`,
    );
  return found;
}

/**
 * Drafts the text of a provision and its commentary from a proposal, in plain words of our own.
 * @throws Error when the code has no such provision
 * @example
 * await show(draftText(proposal, { code: code("aci318-19"), change }).replace("outside", "Only short tests were made."))
 */
export function draftText(proposal: ProposedChange, results: DraftResults): Draft {
  return new Draft(proposal, results);
}
