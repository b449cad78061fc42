import type { Command } from "commander";
import { compare } from "../../comparison";
import { diagnosticReport, readDatasets } from "../../dataset";
import { caution } from "../../face/colophon";
import { REPORT_FORMATS, reportText, writeReport } from "../../exports/document";
import { ownFactors, proposalReport } from "../../exports/draft";
import {
  applyProposal,
  beforeAfterOf,
  changedProvisions,
  compareAlternatives,
  outsideLimits,
  type ProposedChange,
} from "../../proposals";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import {
  byOption,
  characteristicOptions,
  codeNamed,
  dataFolders,
  dataOption,
  formatOption,
  groupingColumns,
  levelNamed,
  levelOption,
} from "../use/option-declarations";
import { asNamed, oneOf, share, WrongUse } from "../use/wrong-use";
import { proposalFiles } from "./proposal-files";
import { asRecord } from "./proposal-record";
import { asText, changedGroups } from "./proposal-text";

const FORMATS = ["text", "json"] as const;

interface ProposeOptions {
  readonly data?: string[];
  readonly by: string;
  readonly code?: string;
  readonly level: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly format: string;
  readonly out?: string;
  readonly require?: string;
}

/**
 * `code-comparison propose <file>`: a proposal before and after, whether it survives, its draft;
 * several files as alternatives.
 */
export function registerProposeCommand(program: Command): void {
  program
    .command("propose")
    .description(
      "compare tests with a code before and after a change, by group: verdicts, factors by three criteria, robustness, draft text",
    )
    .argument(
      "<proposal...>",
      "JSON file of the proposal; further files are alternatives, compared on the same tests",
    )
    .addOption(dataOption())
    .addOption(byOption())
    .option("--code <id>", "the code (default: that of the provision the proposal changes)")
    .addOption(levelOption())
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .addOption(formatOption(FORMATS))
    .option("--out <file>", `write the report to a file: ${REPORT_FORMATS.join(", ")}`)
    .option(
      "--require <verdict>",
      "exit with 1 unless every group that the proposal changes has this verdict in general: meets",
    )
    .addHelpText(
      "after",
      "\nExamples:\n  code-comparison propose proposal.json --data datasets/demo --by failure_mode,bar_material\n  code-comparison propose proposal.json other.json --out report.docx\n\nExit code: 0 the evaluation was made, whatever it finds; 1 with --require meets where a group that the proposal changes does not meet; 2 invalid option or input.",
    )
    .action(answering(runPropose));
}

async function runPropose(files: readonly string[], options: ProposeOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  if (
    options.out !== undefined &&
    !REPORT_FORMATS.some((ending) => options.out?.toLowerCase().endsWith(ending))
  )
    throw new WrongUse(
      `--out "${options.out}" has an ending that is not known, expected ${REPORT_FORMATS.join(", ")}`,
    );
  if (options.require !== undefined) oneOf("require", options.require, ["meets"]);
  const question = {
    fractile: share("fractile", options.fractile),
    confidence: share("confidence", options.confidence),
  };
  const settings = { level: levelNamed(options.level), ...question };
  const [proposal, ...others] = await proposalFiles(files);
  if (!proposal) throw new WrongUse("no proposal named, expected a JSON file");
  const [named = ""] = changedProvisions(proposal);
  const present = codeNamed(options.code ?? named.slice(0, Math.max(0, named.indexOf("/"))));
  // A proposal that the code cannot take is refused here, before any data are read.
  for (const one of [proposal, ...others]) asNamed(() => applyProposal(present, one));
  const data = await readDatasets(dataFolders(options.data));
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) console.error(diagnosticReport(errors));
  const by = groupingColumns(options.by, data.tests);
  const found = beforeAfterOf(data.tests, present, [proposal], by, settings);
  const outside = rowsOutside(
    proposal,
    data.tests.length,
    (row) => data.tests.row(row) as unknown as Record<string, number | null>,
  );
  const comparison = compare(data.tests, present, settings);
  const factors = ownFactors({ proposal, comparison, change: found, question });
  const alternatives =
    others.length === 0
      ? []
      : asNamed(() =>
          compareAlternatives(
            data.tests,
            present,
            [
              { label: "no change", proposals: [] },
              ...[proposal, ...others].map((one) => ({ label: one.id, proposals: [one] })),
            ],
            by,
            { ...settings, factors },
          ),
        );
  const report = proposalReport({
    proposal,
    tests: data.tests,
    comparison,
    change: found,
    question,
    factors,
    alternatives,
    caution,
    invented: data.studies.some(({ provenance }) => provenance === "demo"),
  });
  if (options.out) await writeReport(report, options.out);
  if (format === "json")
    console.log(JSON.stringify(asRecord(proposal, found, outside, factors, alternatives), null, 2));
  else
    console.log(
      options.out
        ? `${asText(proposal, found, outside)}\nThe whole report is in ${options.out}.`
        : `${asText(proposal, found, outside)}\n\n${reportText(report, terminalWidth())}`,
    );
  const changed = changedGroups(found);
  return options.require === undefined ||
    (changed.length > 0 && changed.every(({ after }) => after.verdict === options.require))
    ? 0
    : 1;
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
