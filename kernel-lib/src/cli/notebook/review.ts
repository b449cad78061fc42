import { join, relative, resolve } from "node:path";
import { Option, type Command } from "commander";
import {
  makeReviewRecord,
  reportHtml,
  reviewNotebook,
  writeReviewRecord,
  writeWhole,
} from "../../notebook";
import type { NotebookReview, ReviewSessionOptions } from "../../notebook";
import { checkRecord } from "./check-record";
import { answering } from "../use/answering";
import { absent, helpNotes } from "../use/help";
import { formatOption, inputsOption, timeLimitOption } from "../use/option-declarations";
import {
  numberFromZero,
  oneOf,
  positiveNumber,
  wholeNumber,
  InvalidInput,
} from "../use/invalid-input";
import { notebooksAndInputs } from "./find-notebooks";
import { reviewSummary } from "./print-review";
import { reviewOnPage } from "./review-on-page";
import { reviewTogether } from "./review-together";
import { stepThrough } from "./step-review";
import type { Stepping } from "./step-review";

export interface ReviewCommandOptions {
  readonly until?: string;
  readonly step?: boolean;
  readonly tolerance?: string;
  readonly page?: boolean;
  readonly sign?: string;
  readonly check?: string;
  readonly out?: string;
  readonly timeLimit?: string;
  readonly inputs?: readonly string[];
  readonly format?: string;
  /** Notebooks at the same time; with --step and --page always one. */
  readonly jobs?: string;
}

/** `code-comparison review`. Exit code 0 all reproduced, 1 something is not, 2 invalid input. */
export async function reviewCommand(
  places: readonly string[],
  options: ReviewCommandOptions,
): Promise<number> {
  oneOf("format", options.format ?? "text", ["text", "json"]);
  const stop = new AbortController();
  const stepping = options.step
    ? stepThrough({
        input: process.stdin,
        print: (line) => console.log(line),
        width: process.stdout.columns ?? 100,
      })
    : undefined;
  const onInterrupt = (): void => (stepping ? stepping.interrupt() : stop.abort());
  process.on("SIGINT", onInterrupt);
  process.once("SIGTERM", () => stop.abort());
  try {
    const [check, out] = [options.check, options.out].map((path) => path && resolve(path));
    const { files, inputs } = notebooksAndInputs(places, options.inputs);
    if (check !== undefined) return await checkRecord(check, files, inputs, options.format);
    const asked = {
      ...options,
      inputs,
      ...(out === undefined ? {} : { out: relative(process.cwd(), out) || "." }),
    };
    return await reviewFiles(files, asked, stop.signal, stepping);
  } finally {
    stepping?.close();
    process.removeListener("SIGINT", onInterrupt);
  }
}

async function reviewFiles(
  files: readonly string[],
  options: ReviewCommandOptions & { readonly inputs: readonly string[] },
  signal: AbortSignal,
  stepping: Stepping | undefined,
): Promise<number> {
  if (options.page && options.step)
    throw new InvalidInput("--page and --step exclude each other. Use one of them.");
  const out = options.out ?? join("exports", "review");
  const [report, record] = [join(out, "report.html"), join(out, "review-record.json")];
  const say = options.format === "json" ? console.error : console.log;
  let signed = false;
  const sign = async (reviewer: string, reviewed: readonly NotebookReview[]): Promise<string> => {
    await writeReviewRecord(record, await makeReviewRecord(reviewed, reviewer, options.inputs));
    await writeWhole(report, await reportHtml(reviewed));
    signed = true;
    const left = reviewed.reduce(
      (count, { cells, cellCount }) => count + cellCount - cells.length,
      0,
    );
    return `Signed by ${reviewer.trim()}: ${record}${left > 0 ? ` (${left} cells were not rerun, and the record says so)` : ""}`;
  };
  const sessionOptions = readOptions(options, signal);
  const reviews = options.page
    ? await reviewOnPage(
        files,
        sessionOptions,
        { sign, ...(options.sign === undefined ? {} : { reviewer: options.sign }) },
        signal,
        say,
      )
    : stepping
      ? await reviewStepping(files, sessionOptions, say, stepping)
      : await reviewTogether(files, sessionOptions, say, options.jobs);
  if (options.page) reviews.flatMap(reviewSummary).forEach((line) => say(line));
  if (options.format === "json") console.log(JSON.stringify(reviews.map(withoutOutputs), null, 2));
  await writeWhole(report, await reportHtml(reviews));
  say(`Report: ${report}`);
  if (options.sign !== undefined && !options.page) say(await sign(options.sign, reviews));
  if (options.page) say(signed ? `Record: ${record}` : "Not signed: no record was written.");
  const whole =
    reviews.length === files.length &&
    reviews.every(
      (review) => review.reproduced && !review.cells.some(({ opinion }) => opinion === "question"),
    );
  return whole ? 0 : 1;
}

/** One notebook after the other, as the reviewer steps through their cells. */
async function reviewStepping(
  files: readonly string[],
  options: ReviewSessionOptions,
  say: (line: string) => void,
  stepping: Stepping,
): Promise<NotebookReview[]> {
  const reviews: NotebookReview[] = [];
  for (const file of files) {
    if (options.signal?.aborted || stepping.ended()) break;
    say(`${file}`);
    const review = await reviewNotebook(file, {
      ...options,
      afterCell: stepping.afterCell,
      beforeCell: stepping.beforeCell,
    });
    reviews.push(review);
    reviewSummary(review).forEach((line) => say(line));
  }
  return reviews;
}

function readOptions(
  options: ReviewCommandOptions & { readonly inputs: readonly string[] },
  signal: AbortSignal,
): ReviewSessionOptions {
  const until = options.until === undefined ? undefined : wholeNumber("until", options.until);
  const tolerance =
    options.tolerance === undefined ? undefined : numberFromZero("tolerance", options.tolerance);
  const timeLimitSeconds =
    options.timeLimit === undefined ? undefined : positiveNumber("time-limit", options.timeLimit);
  return {
    inputs: options.inputs,
    signal,
    ...(until === undefined ? {} : { until }),
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(timeLimitSeconds === undefined ? {} : { timeLimitSeconds }),
  };
}

function withoutOutputs(review: NotebookReview): object {
  return {
    ...review,
    cells: review.cells.map(
      ({ recorded: _recorded, rerun: _rerun, source: _source, ...cell }) => cell,
    ),
  };
}

/** Adds `review`: 0 when every cell is the same, 1 when the review found something. */
export function registerReviewCommand(program: Command): void {
  program
    .command("review [notebooks...]")
    .description("rerun notebooks and compare with recorded outputs (executes code; not sandboxed)")
    .addOption(
      absent(new Option("--until <cell>", "review the code cells up to this one"), "every cell"),
    )
    .option(
      "--step",
      "stop after each cell to list differences, inspect variables and enter remarks",
    )
    .option("--tolerance <relative>", "relative tolerance of numbers", "1e-9")
    .addOption(timeLimitOption())
    .option(
      "--page",
      "step through the cells in a browser on this machine, enter remarks and sign there",
    )
    .addOption(
      absent(
        new Option("--sign <name>", "write a signed review record under this name"),
        "no record",
      ),
    )
    .addOption(
      absent(
        new Option(
          "--check <record>",
          "run no code; report whether a signed record matches the current files",
        ),
        "rerun",
      ),
    )
    .addOption(
      absent(
        new Option("--out <folder>", "folder for report.html and the record"),
        "exports/review of the study",
      ),
    )
    .addOption(inputsOption())
    .addOption(
      absent(
        new Option(
          "--jobs <n>",
          "notebooks to review at the same time (one with --step and --page)",
        ),
        "2, or 1 on a machine with one core",
      ),
    )
    .addOption(formatOption(["text", "json"]))
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          'review notebooks --sign "A. Reviewer"',
          "review notebooks --page",
          "review my-study",
          "review notebooks --check exports/review/review-record.json",
        ],
        exit: "0 every cell is reproduced; 1 a cell is not, or is questioned",
      }),
    )
    .action(answering(reviewCommand));
}
