import { readFile, rm } from "node:fs/promises";
import { NotebookProblem, writeWhole } from "../../notebook";
import type { CellComment } from "../../notebook";

/** Name of the file of remarks and opinions in the review's folder. */
export const DRAFTS_FILE = "review-drafts.json";

/** What a reviewer said of a cell, tied to the notebook by its hash. */
interface Draft {
  readonly notebook: string;
  readonly sha256: string;
  readonly cell: number;
  readonly remark: string;
  readonly opinion: "" | "agree" | "question";
}

/**
 * Remarks and opinions as they are made: each change is on disk before it is confirmed, whatever
 * ends the review, and is there again at the next start while the notebook is the same.
 */
export class ReviewDrafts {
  private readonly drafts = new Map<string, Draft>();
  private writing: Promise<void> = Promise.resolve();

  private constructor(readonly file: string) {}

  /** @throws NotebookProblem when the file is there and is none of ours */
  static async open(file: string): Promise<ReviewDrafts> {
    const opened = new ReviewDrafts(file);
    const text = await readFile(file, "utf8").catch(() => undefined);
    for (const draft of text === undefined ? [] : draftsIn(text, file))
      opened.drafts.set(keyOf(draft), draft);
    return opened;
  }

  /** What was said of the cells of this very notebook, by cell number. */
  of(notebook: string, sha256: string): ReadonlyMap<number, CellComment> {
    const found = [...this.drafts.values()].filter(
      (draft) => draft.notebook === notebook && draft.sha256 === sha256,
    );
    return new Map(
      found.map(({ cell, remark, opinion }) => [
        cell,
        { remark, opinion: opinion === "" ? undefined : opinion },
      ]),
    );
  }

  /** Saves what the reviewer says of a cell; resolves when it is on disk. */
  save(notebook: string, sha256: string, cell: number, comment: CellComment): Promise<void> {
    const { remark = "", opinion = "" } = comment;
    const draft: Draft = { notebook, sha256, cell, remark, opinion };
    if (remark.trim() === "" && opinion === "") this.drafts.delete(keyOf(draft));
    else this.drafts.set(keyOf(draft), draft);
    // One after the other, and each writes all: a failed write is made good by the next.
    const write = this.writing
      .catch(() => undefined)
      .then(() => writeWhole(this.file, `${JSON.stringify([...this.drafts.values()], null, 2)}\n`));
    this.writing = write;
    write.catch(() => undefined);
    return write;
  }

  /** Removes the file, once all is in a signed record. */
  async clear(): Promise<void> {
    await this.writing.catch(() => undefined);
    this.drafts.clear();
    await rm(this.file, { force: true });
  }
}

function keyOf({ notebook, sha256, cell }: Draft): string {
  return JSON.stringify([notebook, sha256, cell]);
}

function draftsIn(text: string, file: string): Draft[] {
  try {
    const value: unknown = JSON.parse(text);
    if (Array.isArray(value) && value.every(isDraft)) return value;
  } catch {
    // Said below, as for any other content.
  }
  throw new NotebookProblem(
    `${file} holds no remarks that can be read. Move it elsewhere to start without them.`,
  );
}

function isDraft(value: unknown): value is Draft {
  if (typeof value !== "object" || value === null) return false;
  const { notebook, sha256, cell, remark, opinion } = value as Record<string, unknown>;
  return (
    [notebook, sha256, remark].every((one) => typeof one === "string") &&
    typeof cell === "number" &&
    ["", "agree", "question"].includes(String(opinion))
  );
}
