import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { codeCells, readNotebook, sourceOf } from "../format";
import type { Notebook, NumberedCell } from "../format";
import { ReviewSession } from "../review";
import type { CellReview, NotebookReview, ReviewSessionOptions, ReviewerOpinion } from "../review";

/**
 * What the reviewer said of a cell, kept apart from the run so that starting over loses none of it.
 */
export interface CellComment {
  readonly remark?: string | undefined;
  readonly opinion?: ReviewerOpinion | undefined;
}

/**
 * One notebook on the review desk: its cells, its session once it has begun, and the reviewer's
 * comments.
 */
export class DeskNotebook {
  readonly name: string;
  private session: ReviewSession | undefined;
  private ended: NotebookReview | undefined;
  private stopAsked = false;
  private readonly comments = new Map<number, CellComment>();
  /** Counts up when the notebook is started over, so that a page sees that its cells are old. */
  starts = 0;

  private constructor(
    private readonly file: string,
    readonly hash: string,
    readonly notebook: Notebook,
    readonly cells: readonly NumberedCell[],
    /** Code cells in the whole notebook. */
    private readonly cellCount: number,
    private readonly options: ReviewSessionOptions,
  ) {
    this.name = basename(file);
  }

  /** @throws NotebookProblem when the notebook cannot be read */
  static async read(file: string, options: ReviewSessionOptions): Promise<DeskNotebook> {
    const notebook = await readNotebook(file);
    const hash = createHash("sha256")
      .update(await readFile(file))
      .digest("hex");
    const all = codeCells(notebook);
    return new DeskNotebook(
      file,
      hash,
      notebook,
      all.slice(0, options.until ?? all.length),
      all.length,
      options,
    );
  }

  get reviews(): readonly CellReview[] {
    return this.session?.reviews ?? this.ended?.cells ?? [];
  }

  /** The number of the cell that runs next; undefined when all have run or the kernel is closed. */
  get next(): number | undefined {
    if (this.ended) return undefined;
    return this.session ? this.session.next?.number : this.cells[0]?.number;
  }

  get begun(): boolean {
    return this.session !== undefined || this.ended !== undefined;
  }

  /** Reruns the next cell, in a fresh kernel if none is there yet. */
  async runNext(): Promise<void> {
    this.stopAsked = false;
    this.session ??= await ReviewSession.open(this.file, this.options);
    // The kernel takes a moment to start; who asked to stop meanwhile wants no cell run.
    if (!this.stopAsked) await this.session.runNext();
  }

  stop(): void {
    this.stopAsked = true;
    this.session?.stop();
  }

  async evaluate(expression: string): Promise<string> {
    return this.session
      ? this.session.evaluate(expression)
      : this.ended
        ? "the kernel of this notebook is closed; start over to look into it"
        : "run a cell first";
  }

  commentOn(number: number): CellComment {
    return this.comments.get(number) ?? {};
  }

  setComment(number: number, comment: CellComment): void {
    this.comments.set(number, { ...this.commentOn(number), ...comment });
  }

  /** Forgets the results, not the comments; the next run takes a fresh kernel. */
  async startOver(): Promise<void> {
    await this.close();
    this.ended = undefined;
    this.starts++;
  }

  /** Ends the kernel and keeps the results. */
  async close(): Promise<void> {
    const session = this.session;
    if (!session) return;
    this.ended = await session.close();
    this.session = undefined;
  }

  /** The review as it stands, with the reviewer's comments. */
  result(): NotebookReview {
    const { name, hash, cellCount } = this;
    const review = this.session?.result() ??
      this.ended ?? {
        name,
        hash,
        cells: [],
        reproduced: cellCount === 0,
        cellCount,
        reasons: [],
        notes: [],
        seconds: 0,
      };
    const cells = review.cells.map((cell) => withComment(cell, this.commentOn(cell.number)));
    // What was said of a cell that was not rerun must not be lost.
    const others = [...this.comments]
      .filter(([number]) => number > cells.length)
      .flatMap(([number, { remark, opinion }]) => {
        const said = [
          opinion === "question" ? "questioned" : opinion === "agree" ? "agreed" : "",
          remark?.trim() ?? "",
        ]
          .filter((text) => text !== "")
          .join(": ");
        return said === "" ? [] : [`cell ${number}, not rerun: ${said}`];
      });
    return { ...review, cells, notes: [...review.notes, ...others] };
  }

  /** The prose between the code cell before this one and this one. */
  proseAbove(number: number): string {
    const at = this.notebook.cells.findIndex((cell) => cell === this.cells[number - 1]?.cell);
    const texts: string[] = [];
    for (let index = at - 1; index >= 0; index--) {
      const cell = this.notebook.cells[index];
      if (!cell || cell.cell_type === "code") break;
      if (cell.cell_type === "markdown") texts.unshift(sourceOf(cell));
    }
    return texts.join("\n\n");
  }
}

function withComment(cell: CellReview, { remark, opinion }: CellComment): CellReview {
  const { remark: _remark, opinion: _opinion, ...rest } = cell;
  return {
    ...rest,
    ...(remark?.trim() ? { remark: remark.trim() } : {}),
    ...(opinion ? { opinion } : {}),
  };
}
