import type { Expression } from "../../formula";
import { inventedStamp, type Figure } from "../../figures";
import type { Table } from "../../tables";

/** A piece of a section, the same for every format. */
export type Block =
  | { readonly kind: "paragraph"; readonly text: string }
  /** A warning that must stand out. */
  | { readonly kind: "caution"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  /**
   * Text of a provision; `inserted` pieces are the proposed change, `deleted` ones what it takes
   * out.
   */
  | {
      readonly kind: "provision";
      readonly title: string;
      readonly pieces: readonly ProvisionPiece[];
    }
  /** An equation: what it gives and how, and whether a proposal brings it or takes it out. */
  | {
      readonly kind: "formula";
      readonly symbol: string;
      readonly expression: Expression;
      readonly change?: ProvisionPiece["change"];
    }
  | { readonly kind: "table"; readonly table: Table }
  | { readonly kind: "figure"; readonly figure: Figure };

export interface ProvisionPiece {
  readonly text: string;
  readonly change?: "inserted" | "deleted";
}

export interface Section {
  /** Anchor: lower-case letters, digits, hyphens. */
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** The one document from which HTML, DOCX and PDF are written, so that they cannot disagree. */
export interface DocumentModel {
  readonly title: string;
  readonly subtitle: string;
  readonly caution: string;
  /** Short mark repeated on every page, e.g. that data are invented. */
  readonly stamp: string;
  /** Sheets for print: small type, a page for each section, no list of contents; DOCX only. */
  readonly sheet?: true;
  /** The first section stands before the contents. */
  readonly coverFirst?: true;
  readonly sections: readonly Section[];
}

/**
 * The word that stands before text and equations that a proposal changes: a line alone is not seen
 * by everybody, nor drawn by every program.
 */
export const CHANGE_WORDS = { inserted: "New: ", deleted: "Removed: " } as const;

/** The caption of a figure, which begins with what of its data is invented. */
export function captionOf({ invented, caption }: Figure): string {
  const says = inventedStamp(invented);
  return says === null ? caption : `${says}. ${caption}`;
}

/** Numbers of tables and figures in order of appearance, the same in every format. */
export function numbering(model: DocumentModel): ReadonlyMap<Block, number> {
  const numbers = new Map<Block, number>();
  const counts = { table: 0, figure: 0 };
  for (const block of model.sections.flatMap(({ blocks }) => blocks)) {
    if (block.kind === "table" || block.kind === "figure") numbers.set(block, ++counts[block.kind]);
  }
  return numbers;
}

/**
 * Checks a model before anything is written. @throws Error for an anchor twice or a section without
 * content
 */
export function checkDocument(model: DocumentModel): void {
  const seen = new Set<string>();
  for (const { id, title, blocks } of model.sections) {
    if (!/^[a-z][a-z0-9-]*$/.test(id) || seen.has(id))
      throw new Error(
        `The section "${title}" has the anchor "${id}". Expected lower-case letters, digits and hyphens, each anchor once.`,
      );
    if (blocks.length === 0)
      throw new Error(
        `The section "${title}" is empty. Expected at least one paragraph that says so.`,
      );
    seen.add(id);
  }
}
