import { accountInParts, accountOf, type RatioGroup } from "../../comparison";
import type { BallotSheet } from "../../proposals";
import { accountByStudy, stepsOfAccount, unused } from "./cover-tables";
import { modeLines } from "./mode-lines";
import type { PacketResults } from "./packet-results";

/** The file with every number of the packet. */
export const RESULTS_FILE = "results.json";

/** A value of JSON. */
type Plain =
  string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/**
 * Every number that the packet states, unrounded and under the name of what it is, as JSON. Tables,
 * sentences and figures are made from the same objects; a test reads them back and finds each number
 * here. Single tests are in `data/rows.csv`.
 */
export function resultsFile(results: PacketResults): string {
  const { comparison, studies, everyMode, factors, sheets, change, standings = [] } = results;
  const { sensitivity, question, drafts = [], rejected = [] } = results;
  const account = accountOf(comparison, rejected);
  const found = {
    question: { ...question, level: comparison.prediction.level, code: comparison.code.id },
    groups: everyMode.map(groupNumbers),
    totals: {
      drawn: totalOf(everyMode.filter(({ n }) => n >= 3)),
      by_study: totalOf(results.byStudy),
      by_mode: [...new Set(everyMode.map(({ by }) => by["mode"]))].map((mode) => ({
        mode: mode ?? null,
        ...totalOf(everyMode.filter(({ by, n }) => by["mode"] === mode && n > 0)),
      })),
    },
    groups_by_study: results.byStudy.map(groupNumbers),
    factors,
    proposals: results.proposals,
    sheets: sheets.map(sheetNumbers),
    before_after: change.groups.map(({ label, before, after }) => ({
      label,
      before: groupNumbers(before),
      after: groupNumbers(after),
    })),
    verdicts: {
      now_meet: change.nowMeet,
      still_short: change.stillShort,
      undecided: change.undecided,
    },
    standings,
    account,
    account_steps: stepsOfAccount(account).rows,
    account_all_studies: accountByStudy(comparison, studies).rows.at(-1) ?? {},
    account_by_study: accountInParts(comparison, ["study_id"]),
    studies: studies.length,
    modes_without_change: modeLines(comparison, everyMode, sheets),
    codes: (sensitivity?.codes ?? []).map(({ code, groups }) => ({
      code,
      groups: groups.map(groupNumbers),
    })),
    distributions: (sensitivity?.distributions ?? []).map(({ normal, lognormal, ...one }) => ({
      ...one,
      normal: { lower: normal.lower, upper: normal.upper, verdict: normal.verdict },
      lognormal: { lower: lognormal.lower, upper: lognormal.upper, verdict: lognormal.verdict },
    })),
    choices: sensitivity?.choices ?? [],
    alternatives: sensitivity?.alternatives ?? [],
    drafts: drafts.map(({ values, proposal, paragraphs }) => ({
      change: proposal.title,
      values,
      text: Object.fromEntries(paragraphs.map(({ name, text }) => [name, text])),
    })),
  };
  return `${JSON.stringify(plain(found), null, 1)}\n`;
}

/** Failures, series and lower bounds of several groups, as the captions count them. */
function totalOf(groups: readonly RatioGroup[]): object {
  const sum = (of: (group: RatioGroup) => number): number =>
    groups.reduce((total, group) => total + of(group), 0);
  return {
    failures: sum(({ n }) => n),
    series: sum(({ series }) => series),
    lower_bounds: sum(({ lowerBounds }) => lowerBounds),
  };
}

function groupNumbers({ evidence, by, inGeneral, ...group }: RatioGroup): object {
  const pairs = evidence.length;
  const { shareBelow1 } = group;
  return { by, ...group, inGeneral, pairs, percentBelow1: percent(shareBelow1) };
}

function sheetNumbers(sheet: BallotSheet): object {
  const { provision, classes, groups, code, ...rest } = sheet;
  const classesWith = classes.map((one) => ({
    ...one,
    unusedBefore: unused(one.usedBefore),
    unusedAfter: unused(one.usedAfter),
  }));
  const { example } = sheet;
  const unit = code.system.inSi.force;
  const strengths =
    example === null
      ? null
      : [example.before, example.after].flatMap((force) =>
          [1, example.phi ?? 1].map((factor) => ({
            kN: ((force ?? NaN) * factor) / 1000,
            code_unit: ((force ?? NaN) * factor) / unit,
          })),
        );
  return {
    provision: provision.id,
    classes: classesWith,
    groups: groups.length,
    ...rest,
    strengths,
  };
}

const percent = (share: number | null): number | null => (share === null ? null : 100 * share);

/** What JSON can hold of a result: no pairs of test and provision, no code, no function. */
function plain(value: unknown): Plain {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (typeof value === "string" || typeof value === "boolean" || value === null) return value;
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== "object") return null;
  if (ArrayBuffer.isView(value)) return null;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key, one]) => !LEFT_OUT.has(key) && typeof one !== "function" && one !== undefined)
      .map(([key, one]) => [key, plain(one)]),
  );
}

/** Of single pairs and of the code itself, not of results. */
const LEFT_OUT = new Set(["evidence", "tests", "code", "provision", "present", "changes"]);
