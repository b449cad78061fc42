import type { Command } from "commander";
import { DEMONSTRATION_SEED, writeDemonstration } from "../../demonstration";
import { answering } from "../use/answering";
import { seedNumber } from "../use/wrong-use";

interface DemoOptions {
  readonly folder: string;
  readonly seed: string;
}

/** `code-comparison demo`: writes the invented campaign anew. */
export function registerDemoCommand(program: Command): void {
  program
    .command("demo")
    .description("write the invented demonstration campaign, generated from a stated truth")
    .option("--folder <folder>", "data set folder to write", "datasets/demo")
    .option(
      "--seed <seed>",
      "whole number; another seed gives another campaign from the same truth",
      String(DEMONSTRATION_SEED),
    )
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison demo --seed 7 --folder datasets/own/demo-7\n\nThe data are invented and prove nothing about real bars.\n\nExit code: 0 written, 2 wrong use.",
    )
    .action(answering(write));
}

async function write({ folder, seed }: DemoOptions): Promise<number> {
  const { tests, excludedNotes } = await writeDemonstration(folder, seedNumber("seed", seed));
  console.log(
    `${folder}: ${String(tests.length)} invented tests written, ${String(excludedNotes.length)} of them excluded with a reason`,
  );
  return 0;
}
