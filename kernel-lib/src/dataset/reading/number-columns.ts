import { diagnostic, type Diagnostic } from "../diagnostics";
import type { MatchedColumn } from "./match-header";
import { pointsMayBeThousands } from "./number-cells";

/** The cells of the columns that hold numbers, record by record. */
export function* numberCells(
  columns: ReadonlyArray<MatchedColumn>,
  records: ReadonlyArray<ReadonlyArray<string>>,
): Generator<string> {
  const numeric = columns.filter(({ column }) => column?.kind === "number");
  for (const cells of records) for (const { index } of numeric) yield (cells[index] ?? "").trim();
}

/** Where semicolons separate, points often do thousands: only a look at the numbers can tell. */
export function thousandsOrDecimals(numbers: Iterable<string>, file: string): Diagnostic[] {
  return pointsMayBeThousands(numbers)
    ? [
        diagnostic(
          "warning",
          "thousands-or-decimals",
          `${file}: every number with a point has just three digits behind it, as a thousands separator would; the points were read as decimal points, so that 1.234 is one and a bit. If they separate thousands, write the numbers without`,
          { file, expected: "numbers without thousands separators" },
        ),
      ]
    : [];
}
