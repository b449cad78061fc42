import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";

const root = new URL("../../", import.meta.url).pathname;
const main = join(root, "kernel-lib/dist/cli/main.js");

/** Whether there is a built command line to run. */
export const built = existsSync(main);

export interface Answer {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the built command in a process of its own, from the project's folder. */
export function answerOf(...words: string[]): Answer {
  const program = join(root, "kernel-lib/bin/code-comparison.js");
  return spawnSync(process.execPath, [program, ...words], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
}

/**
 * Runs built command lines one after the other in one process, so that the library is loaded once:
 * what each prints and the exit code that it sets.
 */
export function answersOf(lines: readonly (readonly string[])[]): Answer[] {
  const script = join(root, "tests/cli/commands-in-turn.mjs");
  const { stdout, stderr } = spawnSync(process.execPath, [script, main, JSON.stringify(lines)], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  const answers = JSON.parse(stdout) as Answer[];
  if (answers.length !== lines.length)
    throw new Error(`ended after ${answers.length} of ${lines.length} commands: ${stderr}`);
  return answers;
}
