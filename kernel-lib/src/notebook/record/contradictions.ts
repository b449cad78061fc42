import type { ReviewRecord } from "./review-record";

type RecordedNotebook = ReviewRecord["notebooks"][number];

/** Verdicts that do not let a notebook count as reproduced. */
const NOT_HOLDING: readonly string[] = ["changed", "failed", "not_recorded"];

/**
 * What a record says against itself, as one that was rewritten by hand may: one line for each, in
 * an engineer's words; empty where there is none.
 */
export function contradictionsIn(record: ReviewRecord): string[] {
  const { notebooks, reproduced, excused_accepted: accepted } = record;
  const found = notebooks.flatMap((notebook) => contradictionsOf(notebook, accepted));
  const names = notebooks.map(({ name }) => name);
  for (const name of new Set(names.filter((name, index) => names.indexOf(name) !== index)))
    found.push(`the record names ${name} more than once`);
  if (reproduced && notebooks.length === 0)
    found.push("the record says reproduced, and names no notebook");
  if (reproduced)
    for (const { name, cells, code_cells: count, ...notebook } of notebooks) {
      if (cells.length < count)
        found.push(
          `the record says reproduced, and only ${cells.length} of ${count} cells of ${name} were reviewed`,
        );
      else if (!notebook.reproduced && !(accepted && onlyExcused({ cells })))
        found.push(`the record says reproduced, and ${name} was not`);
    }
  if (Date.parse(record.signed) > Date.now() + DAY_MS)
    found.push(`the record is signed in the future, ${record.signed}`);
  return found;
}

/** Clocks differ; by no more than a day. */
const DAY_MS = 86_400_000;

function onlyExcused({ cells }: Pick<RecordedNotebook, "cells">): boolean {
  return cells.every(({ verdict }) => !NOT_HOLDING.includes(verdict));
}

function contradictionsOf(notebook: RecordedNotebook, accepted: boolean): string[] {
  const { name, cells, code_cells: count, reproduced } = notebook;
  const found: string[] = [];
  if (cells.length > count) found.push(`${name}: ${cells.length} cells reviewed of ${count}`);
  if (cells.some(({ number }, index) => number !== index + 1))
    found.push(`${name}: the cells are not numbered from 1 in order`);
  const against = cells.filter(
    ({ verdict }) => NOT_HOLDING.includes(verdict) || verdict === "excused",
  );
  for (const { number, verdict } of reproduced ? against : [])
    found.push(`${name} is called reproduced, and cell ${number} ${WORDS[verdict] ?? verdict}`);
  const excused = cells.filter(({ verdict }) => verdict === "excused");
  if (excused.length > 0 && !accepted)
    found.push(
      `${name}: the author excuses cell ${excused.map(({ number }) => number).join(", ")}, and the reviewer has not accepted it`,
    );
  for (const { number, verdict, tolerance, largest_relative_difference: largest } of cells) {
    if (verdict === "same" && largest !== null && largest > 0)
      found.push(`${name}, cell ${number}: the same, and yet ${largest} apart`);
    if (verdict === "within_tolerance" && (largest ?? 0) > tolerance)
      found.push(
        `${name}, cell ${number}: within the tolerance ${tolerance}, and yet ${largest} apart`,
      );
  }
  return found;
}

const WORDS: Readonly<Record<string, string>> = {
  changed: "has changed",
  failed: "has failed",
  not_recorded: "was not recorded",
  excused: "is excused by the author",
};
