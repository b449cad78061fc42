import type { Command } from "commander";
import { DEMONSTRATION_SEED, writeDemonstration } from "../../demonstration";

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
    .option("--seed <seed>", "whole number; another seed gives another campaign from the same truth", String(DEMONSTRATION_SEED))
    .addHelpText("after", "\nExample:\n  code-comparison demo --seed 7 --folder datasets/own/demo-7\n\nThe data are invented and prove nothing about real bars.")
    .action(async ({ folder, seed }: DemoOptions) => {
      const value = Number(seed);
      if (!/^\d{1,15}$/.test(seed)) {
        console.error(`--seed "${seed}" is not a whole number, expected one such as ${String(DEMONSTRATION_SEED)}`);
        process.exitCode = 2;
        return;
      }
      const { tests, excludedNotes } = await writeDemonstration(folder, value);
      console.log(`${folder}: ${String(tests.length)} invented tests written, ${String(excludedNotes.length)} of them excluded with a reason`);
    });
}
