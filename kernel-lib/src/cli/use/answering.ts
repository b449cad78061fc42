import { DatasetError } from "../../dataset";
import { ManifestProblem } from "../../exports/manifest";
import { StudySettingsError } from "../../face/study-settings";
import { NotebookProblem } from "../../notebook";
import { InvalidInput } from "./invalid-input";
import { tell } from "./printing";

/**
 * The message to print instead of a stack trace where an option or input cannot be used; null for
 * an error of our own.
 */
export function invalidInputMessage(error: unknown): string | null {
  if (
    error instanceof InvalidInput ||
    error instanceof DatasetError ||
    error instanceof NotebookProblem ||
    error instanceof StudySettingsError ||
    error instanceof ManifestProblem
  )
    return error.message;
  // A file that may not be written, a full disk: the system's own words name the file.
  const { syscall, message } = error as NodeJS.ErrnoException;
  return syscall === undefined ? null : message;
}

/**
 * The action of a command: its answer is the exit code (0 done, 1 found something). Invalid input
 * prints one message and gives 2; any other error is our own and goes on to where the command line
 * prints it as one.
 */
export function answering<Words extends readonly unknown[]>(
  work: (...words: Words) => Promise<number> | number,
): (...words: Words) => Promise<void> {
  return async (...words) => {
    try {
      process.exitCode = await work(...words);
    } catch (error) {
      const message = invalidInputMessage(error);
      if (message === null) throw error;
      tell(message);
      process.exitCode = 2;
    }
  };
}
