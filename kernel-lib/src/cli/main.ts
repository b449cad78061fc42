import { inspect } from "node:util";
import { commandLine } from "./command-line";
import { invalidInputMessage } from "./use/answering";
import { tell } from "./use/printing";

/**
 * An invalid command, option or input exits with 2 and one message. Only an error of our own shows
 * where it happened, so that it can be reported.
 */
async function main(): Promise<void> {
  try {
    await commandLine().parseAsync(process.argv);
  } catch (error) {
    const { code, exitCode } = error as { code?: string; exitCode?: number };
    if (code?.startsWith("commander.")) {
      process.exitCode = exitCode === 0 ? 0 : 2;
      return;
    }
    const message = invalidInputMessage(error);
    if (message === null)
      tell(
        `code-comparison: internal error. Please report it with these lines.\n${inspect(error)}`,
      );
    else tell(message);
    process.exitCode = message === null ? 3 : 2;
  }
}

// A reader that stops early, such as `head`, is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) =>
  process.exit(error.code === "EPIPE" ? 0 : 2),
);

void main();
