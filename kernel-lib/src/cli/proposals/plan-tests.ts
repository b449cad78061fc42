import { writeFile } from "node:fs/promises";
import type { Command } from "commander";
import { compare } from "../../comparison";
import { BAR_MATERIALS, diagnosticReport, FAILURE_MODES, readDatasets } from "../../dataset";
import { caution } from "../../face/colophon";
import { brokenLine } from "../../formula";
import { applyProposals, planTests, type PlannedTests } from "../../proposals";
import { testPlanTable } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import {
  codeNamed,
  codeOption,
  dataFolders,
  dataOption,
  formatOption,
} from "../use/option-declarations";
import { asNamed, names, oneOf, seedNumber, share, WrongUse } from "../use/wrong-use";
import { proposalFiles } from "./proposal-files";

const FORMATS = ["text", "csv", "json"] as const;

interface PlanOptions {
  readonly data?: string[];
  readonly code: string;
  readonly proposal?: string[];
  readonly modes: string;
  readonly materials: string;
  readonly wanted: string;
  readonly governs: string;
  readonly seed: string;
  readonly format: string;
  readonly out?: string;
}

/** `code-comparison plan-tests`: what the next campaign should test. */
export function registerPlanTestsCommand(program: Command): void {
  program
    .command("plan-tests")
    .description("plan tests: groups lacking evidence, tests and specimens needed")
    .addOption(dataOption())
    .addOption(codeOption())
    .option(
      "--proposal <file...>",
      "proposals applied to the code first; the changed provision is then settled",
    )
    .option(
      "--modes <modes>",
      "failure modes, separated by commas",
      "bond,concrete_edge_breakout,pryout,bar_shear",
    )
    .option("--materials <materials>", "bar materials, separated by commas", "gfrp,bfrp")
    .option(
      "--wanted <share>",
      "wanted probability that the verdict in general is right after the further tests",
      "0.8",
    )
    .option("--governs <share>", "wanted probability that a specimen fails in the mode", "0.8")
    .option("--seed <seed>", "seed of the simulation", "2026")
    .addOption(formatOption(FORMATS))
    .option("--out <file>", "write to a file instead")
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison plan-tests --modes bond,pryout --materials gfrp --out plan.csv --format csv\n\nExit code: 0 every cell is settled, 1 tests are needed, 2 invalid option or input.",
    )
    .action(answering(runPlan));
}

async function runPlan(options: PlanOptions): Promise<number> {
  const [wanted, governs] = [share("wanted", options.wanted), share("governs", options.governs)];
  const format = oneOf("format", options.format, FORMATS);
  const modes = names("modes", options.modes).map((mode) =>
    oneOf<string>("modes", mode, FAILURE_MODES),
  );
  const materials = names("materials", options.materials).map((material) =>
    oneOf<string>("materials", material, BAR_MATERIALS),
  );
  const seed = String(seedNumber("seed", options.seed));
  const present = codeNamed(options.code);
  const proposals = await proposalFiles(options.proposal ?? []);
  const judged = asNamed(() => applyProposals(present, proposals));
  const data = await readDatasets(dataFolders(options.data));
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) console.error(diagnosticReport(errors));
  const plan = planTests(compare(data.tests, judged, { level: "nominal" }), {
    modes,
    materials,
    wanted,
    governs,
    seed,
  });
  if (plan.length === 0)
    throw new WrongUse(
      `No test failed in, or is a lower bound for, ${modes.join(", ")} with ${materials.join(", ")}. Expected at least one to plan from.`,
    );
  const written = writtenPlan(plan, format, judged.title);
  if (options.out) await writeFile(options.out, `${written}\n`);
  else console.log(written);
  return plan.every(({ finding }) => finding === "settled") ? 0 : 1;
}

function writtenPlan(plan: readonly PlannedTests[], format: string, title: string): string {
  const table = testPlanTable(plan, {
    id: "test-plan",
    title: `Test plan, ${title}`,
    notes: [caution],
  });
  if (format === "csv") return table.toCsv().trimEnd();
  if (format === "json") return JSON.stringify(table.rows, null, 2);
  return [
    table.toText(terminalWidth()),
    ...plan.map(({ reading }) => brokenLine(`- ${reading}`, terminalWidth(), 2)),
  ].join("\n");
}
