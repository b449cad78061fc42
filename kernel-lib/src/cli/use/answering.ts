import { DatasetError } from "../../dataset";
import { ManifestProblem } from "../../exports/manifest";
import { NotebookProblem } from "../../notebook";
import { WrongUse } from "./wrong-use";

/**
 * A message to print instead of a stack trace where the fault lies in what was given; null for a
 * fault of our own.
 */
export function wrongUseSays(error: unknown): string | null {
  if (
    error instanceof WrongUse ||
    error instanceof DatasetError ||
    error instanceof NotebookProblem ||
    error instanceof ManifestProblem
  )
    return error.message;
  // A file that may not be written, a full disk: the system's own words name the file.
  const { syscall, message } = error as NodeJS.ErrnoException;
  return syscall === undefined ? null : message;
}

/**
 * The action of a command: its answer is the exit code (0 done, 1 found something). Wrong use is
 * said in one line and gives 2; any other error is a fault of ours and goes on to where the command
 * line prints it as one.
 */
export function answering<Words extends readonly unknown[]>(
  work: (...words: Words) => Promise<number> | number,
): (...words: Words) => Promise<void> {
  return async (...words) => {
    try {
      process.exitCode = await work(...words);
    } catch (error) {
      const says = wrongUseSays(error);
      if (says === null) throw error;
      console.error(says);
      process.exitCode = 2;
    }
  };
}
