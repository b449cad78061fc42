import { boundsByMode, valueWords } from "../comparison";
import {
  exclusions,
  findingsByRule,
  likelyDuplicates,
  provenance,
  repeatedRows,
  type Dataset,
  type TestTable,
} from "../dataset";
import type { TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** The studies that the rows come from. */
export function sourceTable({ tests, studies }: Dataset, text: TableText): Table {
  const ids = tests.texts("study_id");
  const series = tests.texts("series_id");
  const listed = new Set(studies.map(({ study_id }) => study_id));
  const unlisted = [...new Set(ids.filter((id) => id !== null && !listed.has(id)))];
  const counted = (id: string | null): TableRow => {
    const rows = ids.flatMap((one, i) => (one === id ? [i] : []));
    return {
      study: id,
      rows: rows.length,
      series: new Set(rows.map((i) => series[i])).size,
    };
  };
  return new Table({
    ...text,
    rowKey: ["study"],
    columns: [
      { key: "study", title: "study", kind: "text" },
      { key: "provenance", title: "provenance", kind: "text" },
      { key: "rows", title: "rows", kind: "integer" },
      { key: "series", title: "series", kind: "integer" },
      { key: "citation", title: "citation", kind: "text" },
      { key: "licence", title: "license", kind: "text" },
    ],
    rows: [
      ...studies.map(({ study_id, provenance: from, citation, licence }) => ({
        ...counted(study_id),
        provenance: from === "demo" ? "demonstration (invented)" : from,
        citation,
        licence,
      })),
      ...unlisted.map((id) => ({
        ...counted(id),
        provenance: "own",
        citation: "not listed in studies.csv",
      })),
    ],
  });
}

/** The files that the rows were read from, with lines and hashes. */
export function fileTable(
  data: Pick<Dataset, "tests" | "rejected" | "hashes">,
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["file"],
    columns: [
      { key: "file", title: "file", kind: "text" },
      { key: "rows", title: "rows used", kind: "integer" },
      { key: "lines", title: "lines", kind: "text" },
      { key: "rejected", title: "rejected", kind: "integer" },
      { key: "excluded", title: "excluded", kind: "integer" },
      { key: "sha256", title: "SHA-256 (first 16)", kind: "text" },
    ],
    rows: provenance(data).map(
      ({ file, rows, firstRow, lastRow, rejected, excluded, sha256 }): TableRow => ({
        file,
        rows,
        lines: firstRow === null ? null : `${firstRow} to ${lastRow ?? firstRow}`,
        rejected: rejected,
        excluded,
        sha256: sha256?.slice(0, 16) ?? null,
      }),
    ),
    notes: [...(text.notes ?? []), "Line numbers as in a spreadsheet; the header is line 1."],
  });
}

/** Every row that enters no comparison: excluded with a reason, or rejected on reading. */
export function excludedTable({ tests, rejected }: Dataset, text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["n"],
    columns: [
      { key: "n", title: "no.", kind: "integer" },
      { key: "status", title: "status", kind: "text" },
      { key: "test_id", title: "test", kind: "text" },
      { key: "study_id", title: "study", kind: "text" },
      { key: "place", title: "file and line", kind: "text" },
      { key: "reason", title: "reason", kind: "text" },
    ],
    rows: [
      ...exclusions(tests).map(({ test_id, study_id, reason, file, row }) => ({
        status: "excluded",
        test_id,
        study_id,
        place: file === null ? null : `${file}, ${row ?? "–"}`,
        reason,
      })),
      ...rejected.map(({ file, row, reasons }) => ({
        status: "rejected on reading",
        place: `${file}, ${row}`,
        reason: reasons.join("; "),
      })),
    ].map((row, i) => ({ n: i + 1, ...row })),
  });
}

/** Failures and lower bounds by mode and material, by the rule of the comparison. */
export function boundsTable(tests: TestTable, text: TableText): Table {
  const materials = [...new Set(tests.texts("bar_material"))].sort();
  return new Table({
    ...text,
    rowKey: ["mode", "material"],
    columns: [
      { key: "mode", title: "mode", kind: "text" },
      { key: "material", title: "material", kind: "text" },
      { key: "failures", title: "failed in the mode", kind: "integer" },
      { key: "lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "share", title: "fraction of lower bounds", kind: "number", digits: 2, limit: null },
    ],
    rows: materials.flatMap((material) =>
      boundsByMode(tests.where((row) => row.bar_material === material))
        .filter(
          ({ mode, values, lowerBounds }) =>
            values + lowerBounds > 0 && (mode !== "yield" || values > 0),
        )
        .map(({ mode, values, lowerBounds }) => ({
          mode: valueWords(mode),
          material: valueWords(material),
          failures: values,
          lower_bounds: lowerBounds,
          share: lowerBounds / (values + lowerBounds),
        })),
    ),
  });
}

/** What checking found, by rule: errors first. */
export function dataCheckTable(diagnostics: Dataset["diagnostics"], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["severity", "rule"],
    columns: [
      { key: "severity", title: "severity", kind: "text" },
      { key: "rule", title: "rule", kind: "text" },
      { key: "count", title: "findings", kind: "integer" },
      { key: "first", title: "first finding", kind: "text" },
    ],
    rows: findingsByRule(diagnostics).map((one) => ({ ...one })),
  });
}

/** Specimens that may be in the data twice. */
export function duplicateTable(tests: TestTable, text: TableText): Table {
  const found = [
    ...likelyDuplicates(tests).map((one) => ({ kind: "across studies", ...one })),
    ...repeatedRows(tests).map((one) => ({ kind: "within a study", ...one })),
  ];
  return new Table({
    ...text,
    rowKey: ["kind", "tests"],
    columns: [
      { key: "kind", title: "kind", kind: "text" },
      { key: "tests", title: "tests", kind: "text" },
      { key: "studies", title: "studies", kind: "text" },
    ],
    rows: found.map(({ kind, test_ids, study_ids }) => ({
      kind,
      tests: test_ids.join(", "),
      studies: study_ids.join(", "),
    })),
  });
}
