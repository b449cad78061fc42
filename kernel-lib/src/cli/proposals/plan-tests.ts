import { readFile, writeFile } from "node:fs/promises";
import type { Command } from "commander";
import { anchorTests, compare } from "../../comparison";
import { diagnosticReport, readDatasets } from "../../dataset";
import { caution } from "../../face/colophon";
import { datasetFolders, projectRoot } from "../../face/open-study";
import { applyProposal, planTests, readProposal, type PlannedTests } from "../../proposals";
import { code } from "../../provisions";
import { testPlanTable } from "../../tables";

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
    .description("plan the next campaign: cells that lack evidence, tests that settle their verdict, specimens that make the mode govern")
    .option("--data <folder...>", "data set folders; all of the project when not given")
    .option("--code <id>", "the code whose verdicts are to be settled", "aci318-19")
    .option("--proposal <file...>", "proposals applied to the code first, so that the changed provision is settled")
    .option("--modes <modes>", "failure modes, with commas", "bond,concrete_edge_breakout,pryout,bar_shear")
    .option("--materials <materials>", "bar materials, with commas", "gfrp,bfrp")
    .option("--wanted <share>", "wanted probability that the verdict is the right one", "0.8")
    .option("--governs <share>", "wanted probability that a specimen fails in the mode", "0.8")
    .option("--seed <seed>", "seed of the simulation", "2026")
    .option("--format <format>", "text, csv or json", "text")
    .option("--out <file>", "write to a file instead")
    .addHelpText("after", "\nExample:\n  code-comparison plan-tests --modes bond,pryout --materials gfrp --out plan.csv --format csv\n\nExit code: 0 every cell is settled, 1 tests are needed, 2 wrong use.")
    .action(async (options: PlanOptions) => {
      process.exitCode = await runPlan(options);
    });
}

async function runPlan(options: PlanOptions): Promise<number> {
  try {
    for (const name of ["wanted", "governs"] as const) if (!(Number(options[name]) > 0 && Number(options[name]) < 1)) throw new Error(`--${name} "${options[name]}" is not usable, expected a number between 0 and 1`);
    if (!["text", "csv", "json"].includes(options.format)) throw new Error(`--format "${options.format}" is not known, expected text, csv, json`);
    const list = (text: string): string[] => text.split(",").map((one) => one.trim()).filter(Boolean);
    const proposals = await Promise.all((options.proposal ?? []).map(async (file) => readProposal(await readFile(file, "utf8"))));
    const data = await readDatasets(options.data ?? datasetFolders(projectRoot()));
    const errors = data.diagnostics.filter(({ severity }) => severity === "error");
    if (errors.length > 0) console.error(diagnosticReport(errors));
    const judged = proposals.reduce(applyProposal, code(options.code));
    const plan = planTests(compare(anchorTests(data.tests), judged, { level: "nominal" }), { modes: list(options.modes), materials: list(options.materials), wanted: Number(options.wanted), governs: Number(options.governs), seed: options.seed });
    if (plan.length === 0) throw new Error(`no test tells anything of ${options.modes} for ${options.materials}, expected at least one to plan from`);
    const written = writtenPlan(plan, options.format, judged.title);
    if (options.out) await writeFile(options.out, `${written}\n`);
    else console.log(written);
    return plan.every(({ finding }) => finding === "settled") ? 0 : 1;
  } catch (error) {
    console.error((error as Error).message);
    return 2;
  }
}

function writtenPlan(plan: readonly PlannedTests[], format: string, title: string): string {
  const table = testPlanTable(plan, { id: "test-plan", title: `Test plan, ${title}`, notes: [caution] });
  if (format === "csv") return table.toCsv().trimEnd();
  if (format === "json") return JSON.stringify(table.rows, null, 2);
  return [table.toText(), ...plan.map(({ reading }) => `- ${reading}`)].join("\n");
}
