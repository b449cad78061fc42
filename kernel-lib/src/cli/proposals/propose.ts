import { Option, type Command } from "commander";
import { compare } from "../../comparison";
import { caution } from "../../face/colophon";
import { REPORT_FORMATS, reportText, writeReport } from "../../exports/document";
import { ownFactors, proposalReport } from "../../exports/draft";
import {
  applyProposal,
  beforeAfterOf,
  changedProvisions,
  compareAlternatives,
  CRITERIA,
  outsideLimits,
  type Criterion,
  type ProposedChange,
} from "../../proposals";
import { terminalWidth } from "../use/terminal-width";
import { withOptions } from "../../provisions/model/with-options";
import { answering } from "../use/answering";
import { askedJson, askedWords } from "../use/asked-words";
import {
  byOption,
  dataFolders,
  dataOption,
  groupingColumns,
  readRows,
  whereOption,
} from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import { requiredVerdict, requireOption } from "../use/required-verdict";
import {
  characteristicOptions,
  codeNamed,
  codeSettingOption,
  formatOption,
  levelNamed,
  levelOption,
  optionsFor,
} from "../use/option-declarations";
import { asNamed, InvalidInput, invalidOption, listed, oneOf, share } from "../use/invalid-input";
import { findOptions, runFind } from "./find-proposal";
import { EXAMPLE, proposalFiles } from "./proposal-files";
import { asRecord } from "./proposal-record";
import { asText, changedGroups } from "./proposal-text";
import { say } from "../use/printing";

const FORMATS = ["text", "json"] as const;
/** Criteria as the command line writes them: as_steel for "as steel". */
const CRITERION_WORDS = CRITERIA.map((one) => one.replace(" ", "_"));

interface ProposeOptions {
  readonly data?: string[];
  readonly by: string;
  readonly where?: string;
  readonly codes?: string;
  readonly option: readonly string[];
  readonly criterion?: string;
  readonly level: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly format: string;
  readonly out?: string;
  readonly require?: string;
  readonly find?: string;
  readonly modes?: string;
}

/**
 * `code-comparison propose <file>`: a proposal before and after, its robustness and draft text;
 * several files as alternatives.
 */
export function registerProposeCommand(program: Command): void {
  program
    .command("propose")
    .description(
      "compare tests with a code before and after a change, by group: verdicts, factors by three criteria, robustness, draft text",
    )
    .argument(
      "[proposal...]",
      "JSON file of the proposal; further files are alternatives on the same tests",
    )
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(byOption())
    .addOption(
      absent(
        new Option("--codes <id>", "one code; `provisions` lists them"),
        "the code of the provision that the proposal changes",
      ),
    )
    .addOption(codeSettingOption())
    .addOption(levelOption())
    .addOption(
      absent(
        new Option(
          "--criterion <criterion>",
          `criterion by which the factor is judged: ${listed(CRITERION_WORDS)}`,
        ),
        "that of the proposal, otherwise fractile",
      ),
    )
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .addOption(formatOption(FORMATS))
    .addOption(
      absent(
        new Option("--out <file>", `write the report to this file: ${listed(REPORT_FORMATS)}`),
        "standard output",
      ),
    )
    .addOption(findOptions()[0])
    .addOption(findOptions()[1])
    .addOption(requireOption("every group that the proposal changes"))
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "propose proposal.json --data datasets/demo --by failure_mode,bar_material",
          "propose proposal.json other.json --out report.docx",
          "propose --find bond.json --modes bond --data my-study --criterion as_steel",
        ],
        notes: [`A complete proposal.json: ${EXAMPLE}`],
        exit: "0 evaluation made, whatever it finds; 1 with --require where a group that the proposal changes does not meet, or with --find where no factor is found",
      }),
    )
    .action(answering(runPropose));
}

async function runPropose(files: readonly string[], options: ProposeOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  if (
    options.out !== undefined &&
    !REPORT_FORMATS.some((ending) => options.out?.toLowerCase().endsWith(ending))
  )
    throw invalidOption("out", options.out, `a name that ends with ${listed(REPORT_FORMATS)}`);
  const meets = requiredVerdict(options.require);
  const question = {
    fractile: share("fractile", options.fractile),
    confidence: share("confidence", options.confidence),
  };
  const settings = { level: levelNamed(options.level), ...question };
  const criterion = criterionNamed(options.criterion);
  if (options.find !== undefined)
    return runFind(files, { ...options, find: options.find }, { ...settings, ...criterion });
  const [stated, ...others] = await proposalFiles(files);
  if (!stated) throw new InvalidInput("No proposal was named. Enter a JSON file.");
  const proposal = "factor" in stated ? { ...stated, ...criterion } : stated;
  const [named = ""] = changedProvisions(proposal);
  const code = codeNamed(options.codes ?? named.slice(0, Math.max(0, named.indexOf("/"))));
  const present = withOptions(code, optionsFor([code], options.option)[0] ?? {});
  // A proposal that the code cannot take is refused here, before any data are read.
  for (const one of [proposal, ...others]) asNamed(() => applyProposal(present, one));
  const rows = await readRows(dataFolders(options.data), options.where);
  const tests = rows.tests.chosen.table;
  const by = groupingColumns(options.by, rows.tests);
  const found = beforeAfterOf(tests, present, [proposal], by, settings);
  const outside = rowsOutside(
    proposal,
    tests.length,
    (row) => tests.row(row) as unknown as Record<string, number | null>,
  );
  const comparison = compare(tests, present, settings);
  const factors = ownFactors({ proposal, comparison, change: found, question });
  const alternatives =
    others.length === 0
      ? []
      : asNamed(() =>
          compareAlternatives(
            tests,
            present,
            [
              { label: "no change", proposals: [] },
              ...[proposal, ...others].map((one) => ({ label: one.id, proposals: [one] })),
            ],
            by,
            { ...settings, factors },
          ),
        );
  const made = proposalReport({
    proposal,
    tests,
    comparison,
    change: found,
    question,
    factors,
    alternatives,
    caution,
    invented: rows.data.studies.some(({ provenance }) => provenance === "demo"),
  });
  const report = { ...made, subtitle: `${made.subtitle ?? ""}${askedWords(options)}` };
  if (options.out) await writeReport(report, options.out);
  if (format === "json")
    say(
      JSON.stringify(
        { ...askedJson(options), ...asRecord(proposal, found, outside, factors, alternatives) },
        null,
        2,
      ),
    );
  else {
    const text = asText({ proposal, found, outside, asked: askedWords(options) }, terminalWidth());
    say(
      options.out
        ? `${text}\nReport: ${options.out}`
        : `${text}\n\n${reportText(report, terminalWidth())}`,
    );
  }
  const changed = changedGroups(found);
  return meets === null || (changed.length > 0 && changed.every(({ after }) => meets(after)))
    ? 0
    : 1;
}

/** The criterion asked for, in place of the proposal's own. @throws InvalidInput */
function criterionNamed(given: string | undefined): { readonly criterion?: Criterion } {
  if (given === undefined) return {};
  return {
    criterion: CRITERIA[CRITERION_WORDS.indexOf(oneOf("criterion", given, CRITERION_WORDS))]!,
  };
}

function rowsOutside(
  proposal: ProposedChange,
  length: number,
  row: (i: number) => Record<string, number | null>,
): number {
  return proposal.limits
    ? Array.from({ length }, (_, i) => i).filter(
        (i) => outsideLimits(proposal.limits ?? [], row(i)).length > 0,
      ).length
    : 0;
}
