import type { Dataset } from "../dataset";

/** What came out of one file of tests. */
export interface FileProvenance {
  /** Path within the data set, as in the findings. */
  readonly file: string;
  readonly sha256: string | null;
  readonly rows: number;
  readonly firstRow: number | null;
  readonly lastRow: number | null;
  readonly rejected: number;
  readonly excluded: number;
}

/**
 * Files of tests with what was used of them and what was not; rows are counted as a spreadsheet
 * does. Rows without a file count as "(not from a file)".
 */
export function provenance({
  tests,
  rejected,
  hashes,
}: Pick<Dataset, "tests" | "rejected" | "hashes">): FileProvenance[] {
  const found = new Map<string, { rows: number; first: number; last: number; excluded: number }>();
  const reasons = tests.texts("excluded");
  for (let i = 0; i < tests.length; i += 1) {
    const source = tests.source(i);
    const file = source?.file ?? "(not from a file)";
    const row = source?.row ?? NaN;
    const known = found.get(file) ?? { rows: 0, first: Infinity, last: -Infinity, excluded: 0 };
    found.set(file, {
      rows: known.rows + 1,
      first: Math.min(known.first, row),
      last: Math.max(known.last, row),
      excluded: known.excluded + ((reasons[i] ?? null) === null ? 0 : 1),
    });
  }
  for (const { file } of rejected)
    if (!found.has(file))
      found.set(file, { rows: 0, first: Infinity, last: -Infinity, excluded: 0 });
  const finite = (row: number): number | null => (Number.isFinite(row) ? row : null);
  return [...found].map(([file, { rows, first, last, excluded }]) => ({
    file,
    sha256: hashes[file] ?? null,
    rows,
    firstRow: finite(first),
    lastRow: finite(last),
    rejected: rejected.filter((row) => row.file === file).length,
    excluded,
  }));
}
