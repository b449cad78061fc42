import { mkdir } from "node:fs/promises";
import { dirname } from "node:path";
import type { Draft } from "../../exports/draft";
import type { DocumentModel } from "../../exports/document";
import { caution } from "../colophon";
import { proseBundle } from "../results/prose";

/**
 * The draft texts of a proposal: for each change the provision with the change marked, and its
 * commentary. The caution stands at the end and cannot be edited.
 */
export class DraftPage implements Iterable<Draft> {
  constructor(
    private readonly title: string,
    private readonly invented: boolean,
    private readonly drafts: readonly Draft[],
    private readonly nothing: string,
  ) {}

  [Symbol.iterator](): Iterator<Draft> {
    return this.drafts[Symbol.iterator]();
  }

  /** Names that texts of a researcher may stand in braces, such as `factor`. */
  get placeholders(): readonly string[] {
    return [...new Set(this.drafts.flatMap(({ values }) => Object.keys(values)))];
  }

  /** The drafts as plain text; why there is none, where there is none. */
  get text(): string {
    return this.drafts.length === 0
      ? this.nothing
      : this.drafts.map((draft) => draft.toText()).join("\n\n");
  }

  toMarkdown(): string {
    return this.drafts.length === 0
      ? this.nothing
      : this.drafts.map((draft) => draft.toMarkdown()).join("\n\n");
  }

  toJSON(): unknown {
    return this.drafts.map(({ proposal, paragraphs, values }) => ({
      provision:
        "kind" in proposal && proposal.kind === "addition"
          ? proposal.provision.id
          : proposal.changes,
      paragraphs,
      values,
    }));
  }

  /** Writes the drafts; the ending chooses the format: docx, html, md, tex, txt or pdf. */
  async save(path: string): Promise<string> {
    const { writeReport } = await import("../../exports/document/index.js");
    await mkdir(dirname(path), { recursive: true });
    await writeReport(this.model(), path);
    return path;
  }

  [Symbol.for("code-comparison.display")](): Record<string, string> {
    if (this.drafts.length === 0) return proseBundle(this.nothing);
    return {
      "text/html": this.drafts.map((draft) => draft.toNotebookHtml()).join("\n"),
      "text/markdown": this.toMarkdown(),
      "text/plain": this.text,
    };
  }

  private model(): DocumentModel {
    return {
      title: this.title,
      subtitle: "Draft text and commentary, the change marked",
      caution,
      stamp: this.invented
        ? "Contains invented demonstration data: proves nothing, not for design"
        : "Draft; research use, not for design",
      sections: this.drafts.map((draft, k) => ({
        id: `draft-${k + 1}`,
        title: draft.proposal.title,
        blocks: draft.blocks({ caution: false }),
      })),
    };
  }
}
