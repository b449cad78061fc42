import type { Command } from "commander";
import { NotebookProblem, parseSetting, runNotebooks } from "../../notebook";
import type { RunNotebooksOptions } from "../../notebook";
import { findNotebooks } from "./find-notebooks";
import { progressLine } from "./print-progress";

export interface RunCommandOptions {
  readonly only?: string;
  readonly set?: readonly string[];
  readonly timeLimit?: string;
  readonly out?: string;
  readonly jobs?: string;
  readonly fresh?: boolean;
  readonly inputs?: readonly string[];
}

/** `code-comparison run`. Exit code 0 all done, 1 a notebook failed, 2 wrong use. */
export async function runCommand(places: readonly string[], options: RunCommandOptions): Promise<number> {
  const stop = new AbortController();
  const onInterrupt = (): void => stop.abort();
  process.once("SIGINT", onInterrupt);
  try {
    const files = findNotebooks(places.length > 0 ? places : ["notebooks"]);
    const results = await runNotebooks(files, { ...runOptions(options), signal: stop.signal, onProgress: (progress) => print(progressLine(progress)) });
    for (const { file, failure, written } of results) {
      if (failure) console.error(`${file}: cell ${failure.number} (${failure.title}) ${failure.message ?? failure.status}\n  what ran is kept in ${written}`);
    }
    return results.some((result) => result.status === "failed") || results.length < files.length ? 1 : 0;
  } catch (error) {
    if (!(error instanceof NotebookProblem)) throw error;
    console.error(error.message);
    return 2;
  } finally {
    process.removeListener("SIGINT", onInterrupt);
  }
}

/** Adds `run`: 0 when every notebook ran to its end, 1 when a cell failed. */
export function registerRunCommand(program: Command): void {
  program
    .command("run [notebooks...]")
    .description("Run notebooks from top to bottom, each in a fresh kernel, and record their outputs. Running a notebook runs its code.")
    .option("--only <cells>", "record only these code cells, such as 3-7 (the cells above run too)")
    .option("--set <name=value>", "give a variable of the cell tagged \"parameters\" another value (repeatable)", collect, [])
    .option("--time-limit <seconds>", "longest time for one cell", "120")
    .option("--out <folder>", "write the notebooks here and leave the originals alone")
    .option("--jobs <n>", "notebooks at the same time", "1")
    .option("--inputs <places...>", "files and folders whose hashes are recorded", ["datasets"])
    .option("--fresh", "run every notebook, whether or not anything it rests on has changed since its last run")
    .addHelpText("after", "\nExample:\n  code-comparison run notebooks --set seed=7 --out trial")
    .action(async (places: string[], options: RunCommandOptions) => {
      process.exitCode = await runCommand(places, options);
    });
}

function runOptions(options: RunCommandOptions): RunNotebooksOptions {
  return {
    timeLimitSeconds: positive("--time-limit", options.timeLimit ?? "120"),
    jobs: positive("--jobs", options.jobs ?? "1"),
    parameters: Object.fromEntries((options.set ?? []).map(parseSetting)),
    inputs: options.inputs ?? ["datasets"],
    cache: options.fresh !== true,
    ...(options.only === undefined ? {} : { only: options.only }),
    ...(options.out === undefined ? {} : { out: options.out }),
  };
}

function positive(name: string, text: string): number {
  const value = Number(text);
  if (!(value > 0 && Number.isFinite(value))) throw new NotebookProblem(`${name} ${text}: expected a number above 0`);
  return value;
}

function collect(value: string, earlier: string[]): string[] {
  return [...earlier, value];
}

function print(line: string | undefined): void {
  if (line !== undefined) console.log(line);
}
