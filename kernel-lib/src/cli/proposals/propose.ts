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
  type AlternativeOutcome,
  type BeforeAfter,
  type DerivedFactor,
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
import { groupJson } from "../comparison/group-json";
import { proposalFiles } from "./proposal-files";

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

/** The groups that the proposal touches: the others are no matter of its own. */
function changedGroups(found: BeforeAfter): BeforeAfter["groups"] {
  return found.groups.filter(
    ({ before, after }) => before.mean !== after.mean || before.verdict !== after.verdict,
  );
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

function asRecord(
  proposal: ProposedChange,
  found: BeforeAfter,
  outside: number,
  factors: readonly DerivedFactor[],
  alternatives: readonly AlternativeOutcome[],
): object {
  return {
    proposal,
    groups: found.groups.map(({ by, before, after }) => ({
      by,
      before: groupJson(before),
      after: groupJson(after),
    })),
    now_meet: found.nowMeet,
    still_short: found.stillShort,
    undecided: found.undecided,
    withdrawn: found.withdrawn,
    added: found.added,
    tests_outside_limits: outside,
    factors: factors.map(
      ({ label, criterion, criteria, exact, rounded, supported, leftOut, warnings }) => ({
        group: label,
        criterion,
        criteria,
        exact,
        rounded,
        supported,
        left_out: leftOut,
        warnings,
      }),
    ),
    ...(alternatives.length === 0
      ? {}
      : {
          alternatives: alternatives.map((one) => ({
            id: one.label,
            lowest_r_k: one.leastCharacteristic,
            share_unsafe: one.shareUnsafe,
            least_index: one.leastIndex,
            mean_ratio: one.meanRatio,
            strength_used: one.usedStrength,
            numbers: one.simplicity.numbers,
            conditions: one.simplicity.conditions,
            verdict: one.verdict,
            short: one.short,
            undecided: one.undecided,
            reduced_more: one.reducedMore,
            dominated_by: one.dominatedBy,
          })),
        }),
  };
}

function asText(proposal: ProposedChange, found: BeforeAfter, outside: number): string {
  const number = (value: number | null): string => (value === null ? "" : value.toFixed(3));
  const changed = changedGroups(found);
  const having = (verdict: string): string[] =>
    changed.filter(({ after }) => after.verdict === verdict).map(({ label }) => label);
  const rows = [
    ["group", "n", "mean", "then", "r_k", "then", "upper bound", "then", "verdict in general"],
    ...changed.map(({ label, before, after }) => [
      label,
      String(before.n),
      number(before.mean),
      number(after.mean),
      number(before.lower),
      number(after.lower),
      number(before.upper),
      number(after.upper),
      before.verdict === after.verdict ? before.verdict : `${before.verdict} -> ${after.verdict}`,
    ]),
  ];
  const widths = (rows[0] ?? []).map((_, k) =>
    Math.max(...rows.map((cells) => (cells[k] ?? "").length)),
  );
  const lines = rows.map((cells) =>
    cells
      .map((cell, k) =>
        k > 0 && k < 8 ? cell.padStart(widths[k] ?? 0) : cell.padEnd(widths[k] ?? 0),
      )
      .join("  ")
      .trimEnd(),
  );
  const list = (title: string, labels: readonly string[]): string[] =>
    labels.length > 0 ? [`${title}: ${labels.join("; ")}`] : [];
  return [
    `Proposal ${proposal.id}: ${proposal.title}`,
    proposal.says,
    "",
    ...(changed.length > 0
      ? ["Test-to-predicted ratios, present and proposed:", ...lines]
      : ["No group changes."]),
    "",
    `${found.groups.length - changed.length} groups are as before.`,
    ...list("Now meet", found.nowMeet),
    ...list("Still fall short", having("falls short")),
    ...list("Undecided", having("undecided")),
    ...list("No longer permitted", found.withdrawn),
    ...list("New", found.added),
    ...(outside > 0 ? [`${outside} tests lie outside the proposal's limits of validity.`] : []),
    "A proposal is evidence for a committee, not a design rule. Design must follow the code in force and a licensed engineer.",
  ].join("\n");
}
