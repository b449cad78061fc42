import type { Column } from "../schema/column";
import { detectDelimiter, firstRecords, type Delimiter } from "./delimited-text";
import { knownNames } from "./match-header";

/** Rows at the top of a file among which the column names are looked for. */
const SEARCHED = 30;

/** The top of a text cut into records: by which separator, and which record holds the column names (from 0; -1 for none). */
export interface HeaderFinding {
  readonly delimiter: Delimiter;
  readonly sample: ReadonlyArray<ReadonlyArray<string>>;
  readonly headerAt: number;
}

/** The separator and the row that are stated instead of looked for. */
export interface StatedHeader {
  readonly delimiter?: Delimiter;
  /** Row of the column names, counted from 1. */
  readonly headerRow?: number;
}

/**
 * Finds the separator and the header of a text. Laboratories write titles above their tables: the header is the row, among the
 * first 30, in which most names of the schema stand; without any, the first row that is not blank.
 */
export function findHeader(text: string, schema: ReadonlyArray<Column>, stated: StatedHeader): HeaderFinding {
  const likely = stated.delimiter ?? detectDelimiter(text);
  const others = stated.delimiter === undefined ? ([",", ";", "\t"] as const).filter((one) => one !== likely && text.includes(one)) : [];
  let best: (HeaderFinding & { readonly known: number }) | null = null;
  for (const delimiter of [likely, ...others]) {
    const sample = firstRecords(text, delimiter, Math.max(200, stated.headerRow ?? 0));
    const found = stated.headerRow === undefined ? headerAmong(sample, schema) : { headerAt: sample.length < stated.headerRow ? -1 : stated.headerRow - 1, known: knownNames(sample[stated.headerRow - 1] ?? [], schema) };
    if (best === null || found.known > best.known) best = { delimiter, sample, ...found };
    // With this many names the separator is beyond doubt.
    if (best.known >= 5) break;
  }
  return best ?? { delimiter: likely, sample: [], headerAt: -1 };
}

/** The row with most names of a schema; the first that is not blank when none has two. */
export function headerAmong(sample: ReadonlyArray<ReadonlyArray<string>>, schema: ReadonlyArray<Column>): { readonly headerAt: number; readonly known: number } {
  const first = sample.findIndex((cells) => cells.some((cell) => cell.trim() !== ""));
  let [headerAt, known] = [first, first === -1 ? 0 : knownNames(sample[first] ?? [], schema)];
  for (let i = first + 1; i < Math.min(SEARCHED, sample.length); i += 1) {
    const here = knownNames(sample[i] ?? [], schema);
    if (here >= 2 && here > known) [headerAt, known] = [i, here];
  }
  return { headerAt, known };
}
