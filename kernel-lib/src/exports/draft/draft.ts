import { symbolText } from "../../formula";
import {
  changedProvisions,
  testedScope,
  type BeforeAfter,
  type ProposedChange,
} from "../../proposals";
import type { ProvisionDefinition } from "../../provisions";
import { beforeAfterTable } from "../../tables";
import type { Block, DocumentModel } from "../document/document";
import { blocksHtml } from "../document/blocks-html";
import { blocksLatex } from "../document/blocks-latex";
import { blocksMarkdown } from "../document/blocks-markdown";
import { blocksText } from "../document/blocks-text";
import { clauseForm } from "./clause-forms";
import { draftFormulas, draftSymbols, factorFormulas } from "./draft-formulas";
import {
  checkTyped,
  filled,
  firstParagraphs,
  type DraftParagraph,
  type ParagraphName,
} from "./draft-paragraphs";
import { provisionOfChange, subclause, testsConcerned, type DraftResults } from "./draft-parts";
import { groupsChangedBy } from "./groups-changed";
import { clauseBefore, draftValues } from "./draft-values";

export type { DraftResults } from "./draft-parts";

const CAUTION =
  "A proposal is evidence for a committee, not a design rule. Anchorage failures can kill. Design must follow the code in force and a licensed engineer.";

/**
 * Draft of a provision and its commentary, the change marked. A draft cannot change: `replace`
 * gives a new one. It shows itself in a notebook and writes Markdown, HTML, LaTeX, plain text and
 * DOCX from one list of blocks.
 */
export class Draft {
  /** The first change of the provision. */
  readonly proposal: ProposedChange;
  /** All changes of the provision, such as a factor for each class of bars: one text. */
  readonly changes: readonly ProposedChange[];
  readonly paragraphs: readonly DraftParagraph[];
  /** What the placeholders stand for, e.g. `factor`, `least_after`. */
  readonly values: Readonly<Record<string, string>>;
  readonly #results: DraftResults;
  readonly #provision: ProvisionDefinition;

  /** @throws Error for changes of different provisions, or one that the code has not */
  constructor(
    changes: readonly ProposedChange[],
    results: DraftResults,
    edited?: readonly DraftParagraph[],
  ) {
    const [first] = changes;
    if (first === undefined) throw new Error("There is no change to draft; expected at least one.");
    [this.proposal, this.changes, this.#results] = [first, changes, results];
    const { code, change, tests } = results;
    this.#provision = provisionOfChange(first, code);
    if (changes.some((one) => changedProvisions(one)[0] !== changedProvisions(first)[0]))
      throw new Error(
        `A draft is of one provision, and the changes are of ${[...new Set(changes.map((one) => changedProvisions(one)[0]))].join(", ")}.`,
      );
    const { fractile = 0.05, confidence = 0.9 } = results.question ?? {};
    const groups = this.#groups;
    const concerned = testsConcerned(groups);
    this.values = draftValues({
      changes,
      code,
      provision: this.#provision,
      groups,
      question: `${100 * fractile} % fractile at ${100 * confidence} % confidence, series effect included`,
      ...(tests && change && concerned.length > 0
        ? { scope: testedScope(tests, concerned, code) }
        : {}),
    });
    this.paragraphs = edited ?? firstParagraphs(changes, groups, this.values);
  }

  /** The groups that any of the changes concerns. */
  get #groups(): BeforeAfter["groups"] {
    const { code, change } = this.#results;
    const found = new Set(this.changes.flatMap((one) => groupsChangedBy(one, code, change)));
    return (change?.groups ?? []).filter((group) => found.has(group));
  }

  /**
   * The draft with one paragraph written anew. Numbers are given by placeholders only, so that none
   * is typed.
   * @param text the new paragraph, e.g. "Bars of glass slip earlier; hence {symbol} is {factor}."
   * @throws Error for a paragraph that the draft has not, a typed number, or a placeholder without
   *   a value
   * @example
   * draftText(proposal, { code: code("aci318-19"), change }).replace("commentary", "{rationale} It rests on {evidence}.")
   */
  replace(name: ParagraphName, text: string): Draft {
    if (!this.paragraphs.some((one) => one.name === name))
      throw new Error(
        `The draft has no paragraph "${String(name)}" to write anew; expected one of ${this.paragraphs.map((one) => one.name).join(", ")}. The caution cannot be changed.`,
      );
    checkTyped(name, text);
    filled(text, this.values);
    return new Draft(
      this.changes,
      this.#results,
      this.paragraphs.map((one) => (one.name === name ? { ...one, text } : one)),
    );
  }

  /** A paragraph with its values; null where the draft has none of that name. */
  filledParagraph(name: ParagraphName): string | null {
    const found = this.paragraphs.find((one) => one.name === name);
    return found ? filled(found.text, this.values) : null;
  }

  /**
   * The draft as blocks of the packet's document; a document that has its own caution may leave
   * this one out.
   */
  blocks(options: { readonly caution?: boolean } = {}): Block[] {
    const { proposal, changes } = this;
    const { code, change } = this.#results;
    const of = (part: DraftParagraph["part"]): DraftParagraph[] =>
      this.paragraphs.filter((one) => one.part === part);
    const groups = this.#groups;
    const form = clauseForm(this.#provision.id);
    const addition = "kind" in proposal && proposal.kind === "addition";
    const symbols = changes.flatMap((one) => ("symbol" in one ? [symbolText(one.symbol)] : []));
    const line = (text: string, inserted = true): Block => ({
      kind: "provision",
      title: "",
      pieces: [{ text, ...(inserted ? { change: "inserted" as const } : {}) }],
    });
    return [
      {
        kind: "provision",
        title: `${clauseBefore(this.#provision.id)}${form?.heading ?? this.#provision.title}`,
        pieces: addition
          ? [{ text: `New section: ${this.#provision.title}.`, change: "inserted" }]
          : [],
      },
      ...draftFormulas(changes, this.#provision, code).flatMap(
        ({ form: one, formulas }): Block[] =>
          one === null
            ? [...formulas]
            : [line(`Equation (${one.number}), for ${one.of}:`, false), ...formulas],
      ),
      ...(form === null ? [] : [line(subclause(form.next, symbols))]),
      ...factorFormulas(changes),
      ...of("provision").map((one): Block => ({
        kind: "provision",
        title: "",
        pieces: [
          {
            text: filled(one.text, this.values),
            ...(one.change ? { change: one.change } : {}),
          },
        ],
      })),
      { kind: "list", items: draftSymbols(changes, this.#provision, code) },
      { kind: "provision", title: "Commentary", pieces: [] },
      ...of("commentary").map(({ text }): Block => ({
        kind: "paragraph",
        text: filled(text, this.values),
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

  /** HTML for a notebook, which may strip MathML: equations as lines of text. */
  toNotebookHtml(): string {
    return blocksHtml(this.blocks());
  }

  /** A document with real underline and strikethrough and equations that can be edited. */
  async toDocx(): Promise<Uint8Array> {
    return (await import("../document/document-docx.js")).documentDocx(this.#model());
  }

  /** What a notebook shows. */
  [Symbol.for("code-comparison.display")](): {
    readonly "text/html": string;
    readonly "text/markdown": string;
    readonly "text/plain": string;
  } {
    return {
      "text/html": this.toNotebookHtml(),
      "text/markdown": this.toMarkdown(),
      "text/plain": this.toText(),
    };
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

/**
 * Drafts the text of a provision and its commentary from one or several changes of the provision.
 * @throws Error when the code has no such provision, or for changes of different provisions
 * @example
 * await show(draftText(proposal, { code: code("aci318-19"), change }).replace("outside", "Only short tests were made."))
 */
export function draftText(
  proposal: ProposedChange | readonly ProposedChange[],
  results: DraftResults,
): Draft {
  const changes = Array.isArray(proposal) ? (proposal as readonly ProposedChange[]) : null;
  return new Draft(changes ?? [proposal as ProposedChange], results);
}
