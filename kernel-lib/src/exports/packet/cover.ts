import { accountOf, accountInParts, type RowAccount } from "../../comparison";
import { className, proposedWords, type BallotSheet } from "../../proposals";
import { sheetClause, STATUS, statusWords } from "../ballot/sheet-words";
import type { BallotCover } from "../ballot/ballot-html";
import type { Block, Section } from "../document/document";
import { changesOfSheets, dataWords, modesWithoutChange } from "./cover-tables";
import { modeLines } from "./mode-lines";
import type { PacketResults } from "./packet-results";
import { fractileWords } from "./packet-words";
import { paragraph } from "./paragraph";

/** The first section: question, answer, every change, every other mode, and the rows behind them. */
export function coverSection(results: PacketResults): Section {
  const { comparison, sheets, everyMode } = results;
  return {
    id: "answer",
    title: "The answer",
    blocks: [
      paragraph(questionWords(results)),
      { kind: "caution", text: `Answer. ${answerWords(sheets)}` },
      ...(sheets.length === 0
        ? []
        : [
            { kind: "table", table: changesOfSheets(sheets) } as Block,
            { kind: "list", items: sheets.map(changeWords) } as Block,
          ]),
      { kind: "table", table: modesWithoutChange(modeLines(comparison, everyMode, sheets)) },
      paragraph(`Evidence. ${rowsWords(results)}`),
    ],
  };
}

/** The same as the first page of the ballot; null without a change. */
export function coverOf(results: PacketResults): BallotCover | null {
  const { comparison, sheets, everyMode } = results;
  if (sheets.length === 0) return null;
  return {
    title: results.title,
    question: questionWords(results),
    answer: answerWords(sheets),
    changes: changesOfSheets(sheets),
    statements: sheets.map(changeWords),
    modes: modesWithoutChange(modeLines(comparison, everyMode, sheets)),
    evidence: rowsWords(results),
  };
}

function questionWords(results: PacketResults): string {
  const { code } = results.comparison;
  return `Question. Do the capacities of ${code.title} (${code.edition}) hold for fiber-reinforced polymer (FRP) bars as they do for steel bars, mode by mode? If not, what factor is required? A provision meets the criterion where the lower bound of the ${fractileWords(results)} of test-to-predicted ratios is at least 1.0, and falls short where its upper bound is below 1.0. Where the bounds enclose 1.0, the tests leave the question undecided.`;
}

/** What is proposed, and what of it its own evidence supports, in one sentence. */
export function answerWords(sheets: readonly BallotSheet[]): string {
  if (sheets.length === 0)
    return "No change is proposed: no mode has a factor below 1.0 for every class of FRP bars.";
  const of = (status: BallotSheet["status"]): number =>
    sheets.filter((one) => one.status === status).length;
  const many = sheets.length === 1 ? "1 change is" : `${sheets.length} changes are`;
  const stands = of("stands by statement");
  const supported = of("supported");
  return `${many} drafted: ${supported === 0 ? "none is" : supported} supported by ${supported < 2 ? "its" : "their"} own evidence${of("not supported") === 0 ? "" : `, ${of("not supported")} not supported`}${stands === 0 ? "" : `, ${stands} standing by a statement of the researcher`}.`;
}

/** One change in one paragraph: clause, factor by class, status and what decides it. */
export function changeWords(sheet: BallotSheet, k: number): string {
  const classes = sheet.classes
    .filter(({ steel, applied }) => !steel && applied !== null)
    .map((one) => `${proposedWords(one)} for ${className(one)}`);
  const change = classes.length === 0 ? "" : ` (${classes.join(", ")})`;
  return `Sheet ${k + 1}, ${sheetClause(sheet)}${change}: ${STATUS[sheet.status].words}. ${statusWords(sheet)}`;
}

/** How many rows are used, from where, out of how many, and why the rest are not. */
export function rowsWords(results: PacketResults): string {
  const { comparison, studies } = results;
  const account = accountOf(comparison, results.rejected ?? []);
  const used = usedRows(account);
  const parts = accountInParts(comparison, ["study_id"]).filter(
    ({ failures, lowerBounds }) => failures + lowerBounds > 0,
  );
  const series = parts.reduce((sum, part) => sum + part.series, 0);
  const data = new Map<string, number>();
  for (const { by, failures, lowerBounds } of parts) {
    const kind = dataWords(studies, by["study_id"] ?? "");
    data.set(kind, (data.get(kind) ?? 0) + failures + lowerBounds);
  }
  const sum = (list: readonly { readonly n: number }[]): number =>
    list.reduce((total, { n }) => total + n, 0);
  const out = [
    ["rejected on reading", sum(account.rejected)],
    ["excluded", sum(account.excluded)],
    ["not judged", sum(account.notJudged)],
    ["in modes not shown", account.otherModes],
  ] as const;
  const unused = out.filter(([, n]) => n > 0).map(([word, n]) => `${shown(n)} ${word}`);
  const from = [...data].map(([kind, n]) => `${shown(n)} ${kind}`);
  return `${shown(used)} of ${shown(account.read)} rows read are used: ${shown(used - boundsOnly(account))} failures and ${boundsOnly(account)} lower bounds only, in ${series} series of ${parts.length} ${parts.length === 1 ? "study, one laboratory or paper" : "studies, each one laboratory or paper"} (${from.join(", ") || "none"}). Not used: ${unused.join(", ") || "none"}. The account of rows gives every reason and adds up.`;
}

const shown = (n: number): string => n.toLocaleString("en-US");

function boundsOnly({ judged }: RowAccount): number {
  return judged.reduce((sum, { lowerBounds }) => sum + lowerBounds, 0);
}

function usedRows({ judged, pooled }: RowAccount): number {
  return (
    judged.reduce((sum, { failures, lowerBounds }) => sum + failures + lowerBounds, 0) +
    pooled.reduce((sum, { n }) => sum + n, 0)
  );
}
