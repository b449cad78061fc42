import { Command } from "commander";
import { caution, version } from "../face/colophon";
import { registerCompareCommand } from "./comparison/compare";
import { registerCheckCommand } from "./dataset/check";
import { registerCurvesCommand } from "./dataset/curves";
import { registerDemoCommand } from "./dataset/demo";
import { registerImportCommand } from "./dataset/import";
import { registerNewCommand } from "./dataset/new";
import { registerKernelCommand, registerReviewCommand, registerRunCommand } from "./notebook";
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
  const program = new Command("code-comparison")
    .description("Compare anchorage tests of FRP and steel bars with code predictions, and review the comparison cell by cell.")
    .version(version)
    .addHelpText("after", `\n${caution}\n\nExit code: 0 done, 1 the check found something, 2 wrong use.`)
    .exitOverride();
  for (const register of [
    registerStudyCommand, registerRunCommand, registerReviewCommand, registerCheckCommand, registerPredictCommand, registerExplainCommand, registerSensitivityCommand, registerEmbedmentCommand, registerProvisionsCommand, registerCompareCommand, registerProposeCommand, registerPlanTestsCommand, registerExportCommand, registerImportCommand, registerNewCommand, registerCurvesCommand, registerDemoCommand, registerKernelCommand,
  ]) register(program);
  for (const command of program.commands) command.exitOverride();
  return program;
}

/** No stack trace reaches a user: wrong use exits with 2 and says what was expected. */
async function main(): Promise<void> {
  try {
    await commandLine().parseAsync(process.argv);
  } catch (error) {
    const { code, exitCode, message } = error as { code?: string; exitCode?: number; message: string };
    if (code?.startsWith("commander.")) process.exitCode = exitCode === 0 ? 0 : 2;
    else {
      console.error(process.env["CODE_COMPARISON_DEBUG"] ? error : `code-comparison: ${message}`);
      process.exitCode = 2;
    }
  }
}

// A reader that stops early, such as `head`, is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? 0 : 2));

void main();
