import { Command } from "commander";
import { invalidInputMessage } from "./use/answering";
import { withHelpStyle } from "./use/help";
import { terminalWidth } from "./use/terminal-width";
import { brokenLine } from "../formula";
import { caution, version } from "../face/colophon";
import { registerCompareCommand } from "./comparison/compare";
import { registerGripsCommand } from "./comparison/grips";
import { registerCheckCommand } from "./dataset/check";
import { registerCurvesCommand } from "./dataset/curves";
import { registerDemoCommand } from "./dataset/demo";
import { registerImportCommand } from "./dataset/import";
import { registerNewCommand } from "./dataset/new";
import { registerKernelCommand, registerReviewCommand, registerRunCommand } from "./notebook";
import { registerDesignCompareCommand } from "./provisions/design-compare";
import { registerEmbedmentCommand } from "./provisions/embedment";
import { registerExplainCommand } from "./provisions/explain";
import { registerPredictCommand } from "./provisions/predict";
import { registerProvisionsCommand } from "./provisions/provisions";
import { registerSensitivityCommand } from "./provisions/sensitivity";
import { registerExportCommand } from "./exports/export";
import { registerPlanTestsCommand } from "./proposals/plan-tests";
import { registerProposeCommand } from "./proposals/propose";
import { registerStudyCommand } from "./study/run-study";

/** The command line: one short file a command; this one only gathers them. */
export function commandLine(): Command {
  const program = withHelpStyle(new Command("code-comparison"))
    .description(
      "Compare anchorage tests of FRP and steel bars with code predictions, and review the comparison cell by cell",
    )
    .version(version)
    .addHelpText("after", () =>
      [
        caution,
        "Exit code: 0 done; 1 the check found something; 2 invalid command, option or input; 3 internal error.",
      ]
        .map((one) => `\n${brokenLine(one, terminalWidth(), 0)}`)
        .join("\n"),
    )
    .showHelpAfterError("(use --help for the arguments and options of this command)")
    .showSuggestionAfterError()
    .exitOverride();
  for (const register of [
    registerStudyCommand,
    registerRunCommand,
    registerReviewCommand,
    registerCheckCommand,
    registerPredictCommand,
    registerExplainCommand,
    registerSensitivityCommand,
    registerEmbedmentCommand,
    registerDesignCompareCommand,
    registerProvisionsCommand,
    registerCompareCommand,
    registerGripsCommand,
    registerProposeCommand,
    registerPlanTestsCommand,
    registerExportCommand,
    registerImportCommand,
    registerNewCommand,
    registerCurvesCommand,
    registerDemoCommand,
    registerKernelCommand,
  ])
    register(program);
  return program;
}

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
      console.error("code-comparison: internal error. Please report it with these lines.", error);
    else console.error(message);
    process.exitCode = message === null ? 3 : 2;
  }
}

// A reader that stops early, such as `head`, is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) =>
  process.exit(error.code === "EPIPE" ? 0 : 2),
);

void main();
