import { countBySeverity, shortened, type Diagnostic, type Severity } from "../diagnostics";
import type { Dataset } from "../dataset";
import type { RowSetAside } from "../reading/row-set-aside";

const TITLES: Readonly<Record<Severity, string>> = {
  error: "Errors (the items named were not used)",
  warning: "Warnings (please look)",
  information: "For your information",
};

const COLUMN_RULES: ReadonlySet<string> = new Set([
  "missing-column",
  "unknown-column",
  "renamed-column",
  "converted-unit",
  "duplicate-column",
  "no-unit",
  "unit-conflict",
  "needed-for-prediction",
  "edges-read-as-far",
]);

/** How a report is laid out. */
export interface ReportOptions {
  /** Findings shown of each rule; the rest is counted. Default 8. */
  readonly shown?: number;
}

/**
 * The findings as a readable text: grouped by severity, then by rule, the most frequent rule first.
 */
export function diagnosticReport(
  diagnostics: ReadonlyArray<Diagnostic>,
  options: ReportOptions = {},
): string {
  const shown = options.shown ?? 8;
  const lines: string[] = [];
  for (const severity of ["error", "warning", "information"] as const) {
    const groups = groupByRule(diagnostics.filter((finding) => finding.severity === severity));
    if (groups.length === 0) continue;
    lines.push(TITLES[severity]);
    for (const [rule, findings] of groups) {
      lines.push(`  ${rule} (${String(findings.length)})`);
      // A fault of a column is corrected once: all are listed. Faults of rows repeat.
      const listed = COLUMN_RULES.has(rule) ? Math.max(shown, 60) : shown;
      for (const { message } of findings.slice(0, listed)) lines.push(`    - ${message}`);
      if (findings.length > listed)
        lines.push(`    - and ${String(findings.length - listed)} more`);
    }
  }
  return lines.join("\n");
}

/**
 * The rejected rows as they stand in the file, with the reasons: at most `shown` of them, the rest
 * counted.
 */
export function rowsSetAsideReport(
  rejected: ReadonlyArray<RowSetAside>,
  shown: number = 8,
): string {
  const lines = ["Rejected rows, as typed"];
  for (const { file, row, cells, reasons } of rejected.slice(0, shown)) {
    lines.push(
      `  ${file} row ${String(row)}: ${reasons.join("; ")}`,
      `    ${cells.map((cell) => shortened(cell)).join(" | ")}`,
    );
  }
  if (rejected.length > shown)
    lines.push(
      `  and ${String(rejected.length - shown)} more (all of them with --format json or --report)`,
    );
  return lines.join("\n");
}

/**
 * One paragraph on a data set as read: rows, series, studies, exclusions, rows rejected, findings.
 */
export function datasetSummary(dataset: Dataset): string {
  const { tests, studies, rejected } = dataset;
  const series = new Set(tests.texts("series_id")).size;
  const excluded = tests.excluded().length;
  const counts = countBySeverity(dataset.diagnostics);
  return [
    `${dataset.name}: ${counted(tests.length, "usable row")} in ${counted(series, "series", "series")} of ${counted(studies.length, "study", "studies")}; ${String(excluded)} of them excluded with a reason`,
    `${counted(rejected.length, "row")} rejected; ${counted(counts.error, "error")}, ${counted(counts.warning, "warning")}, ${counted(counts.information, "note")}`,
  ].join("\n");
}

function counted(n: number, one: string, many = `${one}s`): string {
  return `${String(n)} ${n === 1 ? one : many}`;
}

function groupByRule(diagnostics: ReadonlyArray<Diagnostic>): Array<[string, Diagnostic[]]> {
  const groups = new Map<string, Diagnostic[]>();
  for (const finding of diagnostics) {
    const group = groups.get(finding.rule);
    if (group === undefined) groups.set(finding.rule, [finding]);
    else group.push(finding);
  }
  return [...groups].sort((a, b) => b[1].length - a[1].length);
}
