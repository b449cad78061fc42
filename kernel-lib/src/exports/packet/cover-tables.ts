import { accountInParts, type Comparison, type RowAccount } from "../../comparison";
import type { Study } from "../../dataset";
import { className, proposedWords, type BallotSheet } from "../../proposals";
import { Table } from "../../tables";
import { sheetClause } from "../ballot/sheet-words";
import type { ModeLine } from "./mode-lines";

const number = (key: string, title: string, more: object = {}) =>
  ({ key, title, kind: "number", digits: 3, ...more }) as const;
const whole = (key: string, title: string) => ({ key, title, kind: "integer" }) as const;
const words = (key: string, title: string) => ({ key, title, kind: "text" }) as const;

/** The changes of the cover, one line a class of bars that the change touches. */
export function changesOfSheets(sheets: readonly BallotSheet[]): Table {
  return new Table({
    id: "changes",
    title: "Proposed changes, before and after",
    rowKey: ["sheet", "class"],
    columns: [
      whole("sheet", "sheet"),
      words("clause", "clause"),
      words("class", "class"),
      { ...words("factor", "factor"), align: "right" },
      whole("n", "n"),
      number("lower_before", "r_k before", {
        note: "lower one-sided 90 % bound of the 5 % fractile of test/predicted, series effect included",
      }),
      number("lower_after", "r_k after"),
      number("index_before", "β before", {
        limit: null,
        note: `least reliability index over the load ratios; target ${sheets[0]?.target ?? 3.5}`,
      }),
      number("index_after", "β after", { limit: null }),
      number("unused_before", "not used before", {
        unit: "%",
        digits: 2,
        note: "share of the strength not used on average: 100 (1 − mean predicted/test)",
      }),
      number("unused_after", "not used after", { unit: "%", digits: 2 }),
      words("status", "status"),
    ],
    rows: sheets.flatMap((sheet, k) =>
      sheet.classes
        .filter(({ steel, applied }) => !steel && applied !== null)
        .map((one) => ({
          sheet: k + 1,
          clause: sheetClause(sheet),
          class: className(one),
          factor: proposedWords(one),
          n: one.n,
          lower_before: one.lower,
          lower_after: one.lowerAfter,
          index_before: one.indexBefore,
          index_after: one.indexAfter,
          unused_before: unused(one.usedBefore),
          unused_after: unused(one.usedAfter),
          status: sheet.status,
        })),
    ),
  });
}

/** Share of the strength not used, in %. */
export const unused = (used: number | null): number | null =>
  used === null ? null : 100 * (1 - used);

/** The modes without a change, one line a bar material, with one sentence each. */
export function modesWithoutChange(lines: readonly ModeLine[]): Table {
  return new Table({
    id: "modes-without-change",
    title: "Modes without a change",
    rowKey: ["mode", "bars"],
    columns: [
      words("mode", "mode"),
      words("bars", "bars"),
      whole("n", "n"),
      whole("series", "series"),
      number("lower", "r_k"),
      { key: "verdict", title: "verdict", kind: "verdict" },
      words("says", "in one sentence"),
    ],
    rows: lines.map(({ mode, bars, n, series, lower, verdict, says }) => ({
      mode,
      bars,
      n,
      series,
      lower,
      verdict,
      says,
    })),
  });
}

/** From the rows read to the rows used: each line takes rows away, and what remains is shown. */
export function stepsOfAccount(account: RowAccount): Table {
  const { read, rejected, excluded, notJudged } = account;
  const sum = (list: readonly { readonly n: number }[]): number =>
    list.reduce((total, { n }) => total + n, 0);
  const taken = [
    ...rejected.map(({ reason, n }) => ({ line: "rejected on reading", reason, n })),
    { line: "excluded", reason: "a fault noted at the test; each is listed", n: sum(excluded) },
    ...notJudged.map(({ status, reason, n }) => ({ line: `not judged: ${status}`, reason, n })),
  ].filter(({ n }) => n > 0);
  let remaining = read;
  const lines = taken.map(({ line, reason, n }) => {
    remaining -= n;
    return { line, reason, rows: -n, remaining };
  });
  const bounds = account.judged.reduce((total, one) => total + one.lowerBounds, 0);
  return new Table({
    id: "rows-read-to-used",
    title: "From rows read to rows used",
    rowKey: ["line", "reason"],
    columns: [
      words("line", "line"),
      words("reason", "reason"),
      whole("rows", "rows"),
      whole("remaining", "remaining"),
    ],
    rows: [
      { line: "rows read", reason: "all data files", rows: read, remaining: read },
      ...lines,
      {
        line: "rows used",
        reason: `${remaining - bounds} failures, ${bounds} lower bounds only`,
        rows: remaining,
        remaining,
      },
    ],
  });
}

/** The account of rows by study, whose columns and rows add up to the rows that became tests. */
export function accountByStudy(comparison: Comparison, studies: readonly Study[]): Table {
  const parts = accountInParts(comparison, ["study_id"]);
  const total = (key: "read" | "excluded" | "notJudged" | "failures" | "lowerBounds" | "series") =>
    parts.reduce((sum, part) => sum + part[key], 0);
  const line = (study: string, data: string, of: typeof total) => ({
    study,
    data,
    read: of("read"),
    excluded: of("excluded"),
    not_judged: of("notJudged"),
    failures: of("failures"),
    lower_bounds: of("lowerBounds"),
    used: of("failures") + of("lowerBounds"),
    series: of("series"),
  });
  return new Table({
    id: "account-by-study",
    title: "Rows by study: one laboratory's campaign, or one paper",
    rowKey: ["study"],
    columns: [
      words("study", "study"),
      words("data", "data"),
      whole("read", "read"),
      whole("excluded", "excluded"),
      whole("not_judged", "not judged"),
      whole("failures", "failures used"),
      whole("lower_bounds", "lower bounds only"),
      whole("used", "used"),
      whole("series", "series used"),
    ],
    rows: [
      ...parts.map((part) => {
        const study = part.by["study_id"] ?? "";
        return line(study, dataWords(studies, study), (key) => part[key]);
      }),
      line("all studies", "", total),
    ],
    notes: ["Read = excluded + not judged + failures used + lower bounds only."],
  });
}

/** Whether a study is invented or published. */
export function dataWords(studies: readonly Study[], id: string): string {
  const provenance = studies.find(({ study_id }) => study_id === id)?.provenance;
  return provenance === "demo" ? "invented" : (provenance ?? "not stated");
}
