import { writeFile } from "node:fs/promises";
import { Option, type Command } from "commander";
import { compare } from "../../comparison";
import { BAR_MATERIALS, FAILURE_MODES } from "../../dataset";
import { caution } from "../../face/colophon";
import { brokenLine } from "../../formula";
import { applyProposals, planTests, type PlannedTests } from "../../proposals";
import { testPlanTable } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import { askedWords } from "../use/asked-words";
import { withOptions } from "../../provisions/model/with-options";
import { dataFolders, dataOption, readRows, whereOption } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import {
  codeNamed,
  codeSettingOption,
  formatOption,
  oneCodeOption,
  optionsFor,
} from "../use/option-declarations";
import { asNamed, names, oneOf, seedNumber, share, InvalidInput } from "../use/invalid-input";
import { proposalFiles } from "./proposal-files";
import { say } from "../use/printing";

const FORMATS = ["text", "csv", "json"] as const;

interface PlanOptions {
  readonly data?: string[];
  readonly where?: string;
  readonly codes: string;
  readonly option: readonly string[];
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
    .addOption(whereOption())
    .addOption(oneCodeOption())
    .addOption(codeSettingOption())
    .addOption(
      absent(
        new Option(
          "--proposal <file...>",
          "apply these proposals first; the plan is then for the changed provision",
        ),
        "the present code",
      ),
    )
    .option(
      "--modes <modes>",
      "failure modes, separated by commas",
      "bond,concrete_edge_breakout,pryout,bar_shear",
    )
    .option("--materials <materials>", "bar materials, separated by commas", "gfrp,bfrp")
    .option(
      "--wanted <share>",
      "probability that the verdict in general is right after the further tests",
      "0.8",
    )
    .option("--governs <share>", "probability that a specimen fails in the mode", "0.8")
    .option("--seed <seed>", "seed of the simulation", "2026")
    .addOption(formatOption(FORMATS))
    .addOption(absent(new Option("--out <file>", "write to this file"), "standard output"))
    .addHelpText(
      "after",
      helpNotes({
        examples: ["plan-tests --modes bond,pryout --materials gfrp --out plan.csv --format csv"],
        exit: "0 every cell is settled; 1 tests are needed",
      }),
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
  const named = codeNamed(options.codes);
  const present = withOptions(named, optionsFor([named], options.option)[0] ?? {});
  const proposals = await proposalFiles(options.proposal ?? []);
  const judged = asNamed(() => applyProposals(present, proposals));
  const { tests } = await readRows(dataFolders(options.data), options.where);
  const plan = planTests(compare(tests.chosen.table, judged, { level: "nominal" }), {
    modes,
    materials,
    wanted,
    governs,
    seed,
  });
  if (plan.length === 0)
    throw new InvalidInput(
      `No test that names its bar_size failed in, or is a lower bound for, ${modes.join(", ")} with ${materials.join(", ")}. Expected at least one to plan from.`,
    );
  const written = writtenPlan(plan, format, `Test plan, ${judged.title}${askedWords(options)}`);
  if (options.out) await writeFile(options.out, `${written}\n`);
  else say(written);
  return plan.every(({ finding }) => finding === "settled") ? 0 : 1;
}

function writtenPlan(plan: readonly PlannedTests[], format: string, title: string): string {
  const table = testPlanTable(plan, {
    id: "test-plan",
    title,
    notes: [caution],
  });
  if (format === "csv") return table.toCsv().trimEnd();
  if (format === "json") return JSON.stringify(table.rows, null, 2);
  return [
    table.toText(terminalWidth()),
    ...plan.map(({ reading }) => brokenLine(`- ${reading}`, terminalWidth(), 2)),
  ].join("\n");
}
