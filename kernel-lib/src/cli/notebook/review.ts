import { availableParallelism } from "node:os";
import { join } from "node:path";
import type { Command } from "commander";
import { NotebookProblem, makeReviewRecord, reportHtml, reviewNotebook, reviewNotebooks, serveReviewPage, writeReviewRecord, writeWhole } from "../../notebook";
import type { NotebookReview, ReviewOptions, ReviewProgress } from "../../notebook";
import { findNotebooks } from "./find-notebooks";
import { reviewLine, reviewSummary } from "./print-review";
import { stepThrough } from "./step-review";

export interface ReviewCommandOptions {
  readonly until?: string;
  readonly step?: boolean;
  readonly tolerance?: string;
  readonly page?: boolean;
  readonly sign?: string;
  readonly out?: string;
  readonly timeLimit?: string;
  readonly inputs?: readonly string[];
  readonly format?: string;
  /** Notebooks at the same time; with --step always one. */
  readonly jobs?: string;
}

/** `code-comparison review`. Exit code 0 all reproduced, 1 something is not, 2 wrong use. */
export async function reviewCommand(places: readonly string[], options: ReviewCommandOptions): Promise<number> {
  const stop = new AbortController();
  const onInterrupt = (): void => stop.abort();
  process.once("SIGINT", onInterrupt);
  try {
    const files = findNotebooks(places.length > 0 ? places : ["notebooks"]);
    const reviews = await reviewAll(files, options, stop.signal);
    const out = options.out ?? join("exports", "review");
    await writeWhole(join(out, "report.html"), await reportHtml(reviews));
    const record = join(out, "review-record.json");
    const inputs = options.inputs ?? ["datasets"];
    const sign = async (reviewer: string): Promise<string> => {
      await writeReviewRecord(record, await makeReviewRecord(reviews, reviewer, inputs));
      await writeWhole(join(out, "report.html"), await reportHtml(reviews));
      return `Signed by ${reviewer.trim()}: ${record}`;
    };
    const say = options.format === "json" ? console.error : console.log;
    if (options.format === "json") console.log(JSON.stringify(reviews.map(withoutOutputs), null, 2));
    say(`Report: ${join(out, "report.html")}`);
    if (options.sign !== undefined) say(await sign(options.sign));
    if (options.page) await showPage(reviews, sign, stop.signal);
    return reviews.length === files.length && reviews.every((review) => review.reproduced) ? 0 : 1;
  } catch (error) {
    if (!(error instanceof NotebookProblem)) throw error;
    console.error(error.message);
    return 2;
  } finally {
    process.removeListener("SIGINT", onInterrupt);
  }
}

async function reviewAll(files: readonly string[], options: ReviewCommandOptions, signal: AbortSignal): Promise<NotebookReview[]> {
  const reviewOptions = readOptions(options);
  const stepping = options.step ? stepThrough({ input: process.stdin, print: (line) => console.log(line), width: process.stdout.columns ?? 100 }) : undefined;
  const say = options.format === "json" ? console.error : console.log;
  const reviews: NotebookReview[] = [];
  if (!stepping) {
    const jobs = atATime(options.jobs);
    return reviewNotebooks(files, { ...reviewOptions, signal, jobs, onProgress: (progress) => progressLines(progress).forEach((line) => say(line)) });
  }
  try {
    for (const file of files) {
      if (signal.aborted) break;
      say(`${file}`);
      const review = await reviewNotebook(file, { ...reviewOptions, signal, ...stepping });
      reviews.push(review);
      reviewSummary(review).forEach((line) => say(line));
    }
  } finally {
    stepping?.close();
  }
  return reviews;
}

/** Two notebooks at a time unless said otherwise; one on a machine with one core. */
function atATime(jobs: string | undefined): number {
  if (jobs === undefined) return Math.min(2, availableParallelism());
  const value = Number(jobs);
  if (!(Number.isInteger(value) && value >= 1)) throw new NotebookProblem(`--jobs ${jobs}: expected a whole number of at least 1`);
  return value;
}

function progressLines(progress: ReviewProgress): string[] {
  switch (progress.kind) {
    case "notebook-started":
      return [progress.file];
    case "cell-reviewed":
      return [reviewLine(progress.review, progress.cellCount)];
    case "notebook-reviewed":
      return reviewSummary(progress.review);
  }
}

/** Serves the page until the reviewer stops the program. */
async function showPage(reviews: readonly NotebookReview[], sign: (reviewer: string) => Promise<string>, signal: AbortSignal): Promise<void> {
  const page = await serveReviewPage(reviews, sign);
  console.log(`Open this address in a browser on this machine (Ctrl-C here when done):\n${page.address}`);
  await new Promise<void>((done) => (signal.aborted ? done() : signal.addEventListener("abort", () => done(), { once: true })));
  await page.close();
}

function readOptions(options: ReviewCommandOptions): ReviewOptions {
  const number = (name: string, text: string | undefined, least: number): number | undefined => {
    if (text === undefined) return undefined;
    const value = Number(text);
    if (text.trim() === "" || !Number.isFinite(value) || value < least) throw new NotebookProblem(`${name} ${text}: expected a number of at least ${least}`);
    return value;
  };
  const until = number("--until", options.until, 1);
  const tolerance = number("--tolerance", options.tolerance, 0);
  const timeLimitSeconds = number("--time-limit", options.timeLimit, 0.1);
  return {
    inputs: options.inputs ?? ["datasets"],
    ...(until === undefined ? {} : { until }),
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(timeLimitSeconds === undefined ? {} : { timeLimitSeconds }),
  };
}

function withoutOutputs(review: NotebookReview): object {
  return { ...review, cells: review.cells.map(({ recorded: _recorded, rerun: _rerun, source: _source, ...cell }) => cell) };
}

/** Adds `review`: 0 when every cell is the same, 1 when the review found something. */
export function registerReviewCommand(program: Command): void {
  program
    .command("review [notebooks...]")
    .description("Rerun notebooks cell by cell in a scratch copy and compare with what is recorded. This runs the notebooks' code; it is no sandbox.")
    .option("--until <cell>", "review the code cells up to this one")
    .option("--step", "stop after each cell: go on, see differences, look at variables, note remarks")
    .option("--tolerance <relative>", "relative tolerance for numbers", "1e-9")
    .option("--time-limit <seconds>", "longest time for one cell", "120")
    .option("--page", "show the review as a page on this machine, to remark and sign there")
    .option("--sign <name>", "write a signed review record under this name")
    .option("--out <folder>", "folder for report.html and the record", join("exports", "review"))
    .option("--inputs <places...>", "files and folders that the notebooks read", ["datasets"])
    .option("--jobs <n>", "notebooks at the same time (with --step always one); two where there are two cores")
    .option("--format <format>", "text or json", "text")
    .addHelpText("after", '\nExample:\n  code-comparison review notebooks --sign "A. Reviewer"')
    .action(async (places: string[], options: ReviewCommandOptions) => {
      process.exitCode = await reviewCommand(places, options);
    });
}
