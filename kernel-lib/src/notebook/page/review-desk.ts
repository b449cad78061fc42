import { NotebookProblem } from "../format";
import { counted, outcomeWords, verdictCounts } from "../review";
import type { NotebookReview, ReviewSessionOptions } from "../review";
import { DeskNotebook } from "./desk-notebook";
import type { CellComment } from "./desk-notebook";

/** What the page shows of the desk at a glance; sent whenever it changes. */
export interface DeskState {
  readonly notebooks: readonly {
    readonly name: string;
    readonly begun: boolean;
    readonly next: number | null;
    /** One entry a cell: `waiting`, `running` or a verdict, with the count of starts. */
    readonly cells: readonly string[];
    /** Progress in words. */
    readonly progress: string;
    readonly outcome: string;
  }[];
  readonly running: {
    readonly notebook: number;
    readonly cell: number;
    readonly to: number;
    readonly since: number;
  } | null;
  /** The last thing worth telling the reviewer. */
  readonly told: string;
  readonly signed: string;
}

/**
 * A review held in this process, so that a page may be closed and loaded again without losing
 * anything. One cell runs at a time; notebooks count from 1.
 */
export class ReviewDesk {
  private running: { notebook: number; cell: number; to: number; since: number } | undefined;
  private work: Promise<void> = Promise.resolve();
  private stopping = false;
  private told = "";
  private signed = "";
  private readonly listeners = new Set<(state: DeskState) => void>();

  private constructor(readonly notebooks: readonly DeskNotebook[]) {}

  /** @throws NotebookProblem when a notebook cannot be read */
  static async open(files: readonly string[], options: ReviewSessionOptions): Promise<ReviewDesk> {
    return new ReviewDesk(await Promise.all(files.map((file) => DeskNotebook.read(file, options))));
  }

  notebook(place: number): DeskNotebook {
    const found = this.notebooks[place - 1];
    if (!found)
      throw new NotebookProblem(
        `there is no notebook ${place}; expected 1 to ${this.notebooks.length}`,
      );
    return found;
  }

  /** Begins to run the notebook's cells up to `to`; says why not when it cannot. */
  run(place: number, to: number): void {
    const notebook = this.notebook(place);
    if (this.running)
      throw new NotebookProblem(
        `cell ${this.running.cell} of ${this.notebook(this.running.notebook).name} is running; stop it first`,
      );
    const last = notebook.cells.length;
    if (notebook.next === undefined)
      throw new NotebookProblem("every cell has been rerun; start over to run them again");
    if (!Number.isInteger(to) || to < notebook.next || to > last)
      throw new NotebookProblem(`cell ${to}: expected a cell from ${notebook.next} to ${last}`);
    this.stopping = false;
    this.told = "";
    this.running = { notebook: place, cell: notebook.next, to, since: Date.now() };
    this.work = this.runCells(place, notebook, to);
  }

  private async runCells(place: number, notebook: DeskNotebook, to: number): Promise<void> {
    try {
      // A kernel whose notebook is done is kept for looking around, until another one is needed.
      await Promise.all(
        this.notebooks
          .filter((other) => other !== notebook && other.begun && other.next === undefined)
          .map((other) => other.close()),
      );
      for (
        let cell = notebook.next;
        cell !== undefined && cell <= to && !this.stopping;
        cell = notebook.next
      ) {
        this.running = { notebook: place, cell, to, since: Date.now() };
        this.tell();
        await notebook.runNext();
        if (this.signed !== "") this.signed = "Cells were run after signing: sign again.";
      }
    } catch (error) {
      this.told = `The notebook could not be run: ${(error as Error).message}`;
    } finally {
      this.running = undefined;
      this.tell();
    }
  }

  /** Stops the running cell and those that would follow. */
  stop(): void {
    this.stopping = true;
    if (this.running) this.notebook(this.running.notebook).stop();
  }

  async startOver(place: number): Promise<void> {
    this.mustBeIdle();
    await this.notebook(place).startOver();
    if (this.signed !== "") this.signed = "A notebook was started over after signing: sign again.";
    this.tell();
  }

  comment(place: number, cell: number, comment: CellComment): void {
    const notebook = this.notebook(place);
    if (!notebook.cells[cell - 1])
      throw new NotebookProblem(`there is no cell ${cell} in ${notebook.name}`);
    notebook.setComment(cell, comment);
    if (this.signed !== "") this.signed = "A comment was changed after signing: sign again.";
    this.tell();
  }

  async look(place: number, expression: string): Promise<string> {
    this.mustBeIdle();
    return this.notebook(place).evaluate(expression);
  }

  /** Hands the review to `sign`, and keeps what it answers. */
  async sign(
    reviewer: string,
    sign: (reviewer: string, reviews: readonly NotebookReview[]) => Promise<string>,
  ): Promise<void> {
    this.mustBeIdle();
    this.signed = await sign(reviewer, this.results());
    this.tell();
  }

  results(): NotebookReview[] {
    return this.notebooks.map((notebook) => notebook.result());
  }

  /** Ends all kernels; the results stay. */
  async close(): Promise<void> {
    this.stop();
    await this.work;
    await Promise.all(this.notebooks.map((notebook) => notebook.close()));
  }

  /** Calls the listener now and at every change, until the returned function is called. */
  listen(listener: (state: DeskState) => void): () => void {
    this.listeners.add(listener);
    listener(this.state());
    return () => void this.listeners.delete(listener);
  }

  state(): DeskState {
    const notebooks = this.notebooks.map((notebook, index) => {
      const runningCell = this.running?.notebook === index + 1 ? this.running.cell : undefined;
      const cells = notebook.cells.map(
        ({ number }) =>
          `${runningCell === number ? "running" : (notebook.reviews[number - 1]?.verdict ?? "waiting")} ${notebook.starts}`,
      );
      return {
        name: notebook.name,
        begun: notebook.begun,
        next: notebook.next ?? null,
        cells,
        progress: progressWords(notebook),
        outcome: notebook.begun ? outcomeWords(notebook.result()) : "not begun",
      };
    });
    return { notebooks, running: this.running ?? null, told: this.told, signed: this.signed };
  }

  private mustBeIdle(): void {
    if (this.running)
      throw new NotebookProblem(
        `cell ${this.running.cell} is running; stop it or wait for it first`,
      );
  }

  private tell(): void {
    for (const listener of this.listeners) listener(this.state());
  }
}

function progressWords({ reviews, cells }: DeskNotebook): string {
  return [
    `${reviews.length} of ${counted(cells.length, "cell")} rerun`,
    ...verdictCounts(reviews),
  ].join(", ");
}
