import type { Command } from "commander";
import { DEMONSTRATION_SEED, writeDemonstration } from "../../demonstration";
import { answering } from "../use/answering";
import { helpNotes } from "../use/help";
import { seedNumber } from "../use/invalid-input";
import { say } from "../use/printing";

interface DemoOptions {
  readonly folder: string;
  readonly seed: string;
}

/** `code-comparison demo`: writes the invented campaign. */
export function registerDemoCommand(program: Command): void {
  program
    .command("demo")
    .description("write the invented demonstration campaign, generated from known parameters")
    .option("--folder <folder>", "data set folder to write", "datasets/demo")
    .option(
      "--seed <seed>",
      "whole number; another seed gives another campaign from the same parameters",
      String(DEMONSTRATION_SEED),
    )
    .addHelpText(
      "after",
      helpNotes({
        examples: ["demo --seed 7 --folder datasets/own/demo-7"],
        notes: ["The data are invented and prove nothing about real bars."],
        exit: "0 written",
      }),
    )
    .action(answering(write));
}

async function write({ folder, seed }: DemoOptions): Promise<number> {
  const { tests, excludedNotes } = await writeDemonstration(folder, seedNumber("seed", seed));
  say(
    `${folder}: ${String(tests.length)} invented tests written, ${String(excludedNotes.length)} of them excluded with a reason`,
  );
  return 0;
}
