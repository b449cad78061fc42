import { isAbsolute, join, relative, resolve } from "node:path";
import { Option, type Command } from "commander";
import { reportHtml } from "../../notebook";
import type { ReviewSessionOptions } from "../../notebook";
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
import { FIGURE_DRAWER } from "./draw-figures";
import { notebooksAndInputs } from "./find-notebooks";
import { reviewSummary } from "./print-review";
import { reviewOnPage } from "./review-on-page";
import { reviewStepping } from "./review-in-steps";
import { DRAFTS_FILE, ReviewDrafts } from "./review-drafts";
import { holds, isExcused, withoutOutputs } from "./review-result";
import { reviewTogether } from "./review-together";
import { Signing } from "./signing";
import { stepThrough } from "./step-review";
import { writeReport } from "./write-report";
import type { Stepping } from "./step-review";
import { say, tell } from "../use/printing";

/** Where reports and records go. */
const OUT = join("exports", "review");

export interface ReviewCommandOptions {
  readonly until?: string;
  readonly step?: boolean;
  readonly tolerance?: string;
  readonly acceptExcused?: boolean;
  readonly page?: boolean;
  readonly sign?: string;
  readonly key?: string;
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
  // Paths are those of the folder in which the command was started, not of the study's.
  const [check, out, key] = [options.check, options.out, options.key].map(
    (path) => path && resolve(path),
  );
  const { files, inputs } = notebooksAndInputs(places, options.inputs);
  const asked = {
    ...options,
    inputs,
    ...(key === undefined ? {} : { key }),
    ...(out === undefined ? {} : { out: asGiven(out, options.out) }),
  };
  const drafts = await ReviewDrafts.open(join(asked.out ?? OUT, DRAFTS_FILE));
  const stepping = options.step
    ? stepThrough(
        {
          input: process.stdin,
          print: (line) => say(line),
          width: process.stdout.columns ?? 100,
        },
        () => drafts,
      )
    : undefined;
  const onInterrupt = (): void => (stepping ? stepping.interrupt() : stop.abort());
  process.on("SIGINT", onInterrupt);
  // A closed terminal ends the review as a stop does: report and remarks are written.
  for (const signal of ["SIGTERM", "SIGHUP"] as const) process.once(signal, () => stop.abort());
  try {
    return check === undefined
      ? await reviewFiles(files, asked, stop.signal, stepping, drafts)
      : await checkRecord(check, files, inputs, { format: options.format, key });
  } finally {
    stepping?.close();
    process.removeListener("SIGINT", onInterrupt);
  }
}

/** A whole path as it was given, another from the study's folder. */
function asGiven(path: string, given = ""): string {
  return isAbsolute(given) ? given : relative(process.cwd(), path) || ".";
}

async function reviewFiles(
  files: readonly string[],
  options: ReviewCommandOptions & { readonly inputs: readonly string[] },
  signal: AbortSignal,
  stepping: Stepping | undefined,
  drafts: ReviewDrafts,
): Promise<number> {
  if (options.page && options.step)
    throw new InvalidInput("--page and --step exclude each other. Use one of them.");
  const out = options.out ?? OUT;
  const report = join(out, "report.html");
  const print = options.format === "json" ? tell : say;
  const signing = new Signing(out, options);
  const sessionOptions = readOptions(options, signal);
  const reviews = options.page
    ? await reviewOnPage(
        files,
        sessionOptions,
        { sign: signing.sign, ...(options.sign === undefined ? {} : { reviewer: options.sign }) },
        signal,
        print,
        drafts,
      )
    : stepping
      ? await reviewStepping(files, sessionOptions, print, stepping)
      : await reviewTogether(files, sessionOptions, print, options.jobs);
  if (options.page) reviews.flatMap(reviewSummary).forEach(print);
  if (options.format === "json") say(JSON.stringify(reviews.map(withoutOutputs), null, 2));
  await writeReport(report, await reportHtml(reviews, await signing.of(reviews)));
  print(`Report: ${report}`);
  if (options.sign !== undefined && !options.page) print(await signing.sign(options.sign, reviews));
  if (options.page)
    print(signing.done ? `Record: ${signing.file}` : "Not signed: no record was written.");
  if (signing.done) await drafts.clear();
  const accepted = options.acceptExcused === true;
  if (!accepted && reviews.some(isExcused))
    print("Excused cells need the reviewer's consent: look at each, then use --accept-excused.");
  return reviews.length === files.length &&
    reviews.every((review) => holds(review, accepted, sessionOptions.until))
    ? 0
    : 1;
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
    drawer: FIGURE_DRAWER,
    ...(until === undefined ? {} : { until }),
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(timeLimitSeconds === undefined ? {} : { timeLimitSeconds }),
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
    .option(
      "--accept-excused",
      "exit code 0 and a record that holds also where the author excuses a cell (tag volatile, wide tolerance, masked phrase)",
    )
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
        new Option(
          "--key <file>",
          "with --sign: your private Ed25519 key (PEM, or ssh-keygen without a passphrase), to write a signature beside the record; with --check: the public key that must have signed",
        ),
        "no signature",
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
        exit: "0 every cell is reproduced; 1 a cell is not, is excused or is questioned",
      }),
    )
    .action(answering(reviewCommand));
}
