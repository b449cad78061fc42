import { Option, type Command } from "commander";
import { parseSetting, runNotebooks } from "../../notebook";
import type { RunNotebooksOptions } from "../../notebook";
import { answering } from "../use/answering";
import { absent, helpNotes } from "../use/help";
import { inputsOption, jobsOption, timeLimitOption } from "../use/option-declarations";
import { positiveNumber, wholeNumber } from "../use/invalid-input";
import { notebooksAndInputs } from "./find-notebooks";
import { progressLine } from "./print-progress";
import { printableLine } from "../../formula";
import { say, tell } from "../use/printing";

export interface RunCommandOptions {
  readonly only?: string;
  readonly set?: readonly string[];
  readonly timeLimit?: string;
  readonly out?: string;
  readonly jobs?: string;
  readonly fresh?: boolean;
  readonly inputs?: readonly string[];
}

/** `code-comparison run`. Exit code 0 all done, 1 a notebook failed, 2 invalid input. */
export async function runCommand(
  places: readonly string[],
  options: RunCommandOptions,
): Promise<number> {
  const stop = new AbortController();
  const onInterrupt = (): void => stop.abort();
  process.once("SIGINT", onInterrupt);
  try {
    const { files, inputs } = notebooksAndInputs(places, options.inputs);
    const results = await runNotebooks(files, {
      ...runOptions(options),
      inputs,
      signal: stop.signal,
      onProgress: (progress) => print(progressLine(progress)),
    });
    for (const { file, failure, written } of results) {
      if (failure)
        tell(
          printableLine(
            `${file}, cell ${failure.number} (${failure.title}) failed: ${failure.message ?? failure.status}. Partial output: ${written}.`,
          ),
        );
    }
    return results.some((result) => result.status === "failed") || results.length < files.length
      ? 1
      : 0;
  } finally {
    process.removeListener("SIGINT", onInterrupt);
  }
}

/** Adds `run`: 0 when every notebook ran to its end, 1 when a cell failed. */
export function registerRunCommand(program: Command): void {
  program
    .command("run [notebooks...]")
    .description("run notebooks in fresh kernels and record outputs (executes code)")
    .addOption(
      absent(
        new Option(
          "--only <cells>",
          "record only these code cells, such as 3-7 (the cells above run too)",
        ),
        "every cell",
      ),
    )
    .addOption(
      new Option(
        "--set <name=value>",
        'set a variable of the cell tagged "parameters"; may be repeated',
      )
        .argParser(collect)
        .default([], "the values in the cell"),
    )
    .addOption(timeLimitOption())
    .addOption(
      absent(
        new Option("--out <folder>", "write the notebooks here; the originals are not changed"),
        "record in place",
      ),
    )
    .addOption(jobsOption("1"))
    .addOption(inputsOption())
    .option("--fresh", "run every notebook, even if its inputs are unchanged")
    .addHelpText(
      "after",
      helpNotes({
        examples: ["run notebooks --set seed=7 --out trial", "run my-study"],
        exit: "0 every notebook ran to its end; 1 a cell failed",
      }),
    )
    .action(answering(runCommand));
}

function runOptions(options: RunCommandOptions): RunNotebooksOptions {
  return {
    timeLimitSeconds: positiveNumber("time-limit", options.timeLimit ?? "120"),
    jobs: wholeNumber("jobs", options.jobs ?? "1"),
    parameters: Object.fromEntries((options.set ?? []).map(parseSetting)),
    cache: options.fresh !== true,
    ...(options.only === undefined ? {} : { only: options.only }),
    ...(options.out === undefined ? {} : { out: options.out }),
  };
}

function collect(value: string, earlier: string[]): string[] {
  return [...earlier, value];
}

function print(line: string | undefined): void {
  if (line !== undefined) say(line);
}
