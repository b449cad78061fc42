import { Command } from "commander";
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
