import { parseFormula, symbolsOf, symbolText, type Expression } from "../../formula";
import { changedProvisions, type BeforeAfter, type ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import { beforeAfterTable } from "../../tables";
import type { Block, DocumentModel } from "../document/document";
import { blocksLatex } from "../document/blocks-latex";
import { blocksMarkdown } from "../document/blocks-markdown";
import { blocksText } from "../document/blocks-text";
import { symbolMeaning } from "./condition-words";
import {
  checkTyped,
  filled,
  firstParagraphs,
  type DraftParagraph,
  type ParagraphName,
} from "./draft-paragraphs";
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
    const groups = this.#groups();
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
    const of = (part: DraftParagraph["part"], name?: ParagraphName): DraftParagraph[] =>
      this.paragraphs.filter(
        (one) =>
          one.part === part && (name === undefined ? one.name !== "rule" : one.name === name),
      );
    const groups = this.#groups();
    const piece = ({ text, change }: DraftParagraph): { text: string; change?: "inserted" } => ({
      text: filled(text, this.values),
      ...(change ? { change } : {}),
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
      ...this.#formulas(),
      ...of("provision").map((one): Block => ({
        kind: "provision",
        title: "",
        pieces: [piece(one)],
      })),
      { kind: "list", items: this.#symbols() },
      { kind: "provision", title: "Commentary", pieces: [] },
      ...of("commentary").map((one): Block => ({
        kind: "paragraph",
        text: filled(one.text, this.values),
      })),
      ...(groups.length > 0 && this.#results.change
        ? [
            {
              kind: "table" as const,
              table: beforeAfterTable(
                { ...this.#results.change, groups },
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

  /** The groups that the proposal's own provisions change. */
  #groups(): BeforeAfter["groups"] {
    const { change } = this.#results;
    const ids = changedProvisions(this.proposal);
    const modes = this.#results.code.provisions
      .filter(({ id }) => ids.includes(id))
      .map(({ modes: [first] }) => first as string);
    return (change?.groups ?? []).filter(
      ({ by, before, after }) =>
        before.mean !== after.mean &&
        (by["mode"] === undefined || modes.includes(String(by["mode"]))),
    );
  }

  #formulas(): Block[] {
    const { proposal } = this;
    const provision = this.#provision;
    const last = (symbol: string): Expression =>
      parseFormula(provision.steps.find((one) => one.symbol === symbol)?.formula ?? symbol);
    if ("kind" in proposal) {
      return proposal.kind === "addition"
        ? provision.steps.map(({ symbol, formula }) => ({
            kind: "formula",
            symbol,
            expression: parseFormula(formula),
            change: "inserted",
          }))
        : [{ kind: "formula", symbol: provision.capacity, expression: last(provision.capacity) }];
    }
    const present = last(provision.capacity);
    const changed: Expression = {
      kind: "binary",
      operator: "*",
      left: { kind: "symbol", name: proposal.symbol },
      right: present,
    };
    const factor = parseFormula(proposal.factor);
    return [
      { kind: "formula", symbol: provision.capacity, expression: present, change: "deleted" },
      { kind: "formula", symbol: provision.capacity, expression: changed, change: "inserted" },
      ...(factor.kind === "number"
        ? []
        : [
            {
              kind: "formula" as const,
              symbol: proposal.symbol,
              expression: factor,
              change: "inserted" as const,
            },
          ]),
    ];
  }

  #symbols(): string[] {
    const { code } = this.#results;
    const read = new Set(
      this.#formulas().flatMap((block) =>
        block.kind === "formula" && block.change !== "deleted"
          ? [block.symbol, ...symbolsOf(block.expression)]
          : [],
      ),
    );
    return [...read]
      .filter((name) => name !== "pi")
      .map((name) => {
        if ("symbol" in this.proposal && name === this.proposal.symbol)
          return `${symbolText(name)} = factor for ${this.proposal.title} (new)`;
        const { meaning, unit } = symbolMeaning(name, code, this.#provision);
        return `${symbolText(name)} = ${meaning}${unit === "" ? "" : `, ${unit}`}`;
      });
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
