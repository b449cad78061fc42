import { countBySeverity, type Diagnostic, type Severity } from "./diagnostics";
import type { Dataset } from "../reading/read-dataset";

const TITLES: Readonly<Record<Severity, string>> = { error: "Errors (the rows are set aside)", warning: "Warnings (please look)", information: "For your information" };

/** How a report is laid out. */
export interface ReportOptions {
  /** Findings shown of each rule; the rest is counted. Default 8. */
  readonly shown?: number;
}

/** The findings as a readable text: grouped by severity, then by rule, the most frequent rule first. */
export function diagnosticReport(diagnostics: ReadonlyArray<Diagnostic>, options: ReportOptions = {}): string {
  const shown = options.shown ?? 8;
  const lines: string[] = [];
  for (const severity of ["error", "warning", "information"] as const) {
    const groups = groupByRule(diagnostics.filter((finding) => finding.severity === severity));
    if (groups.length === 0) continue;
    lines.push(TITLES[severity]);
    for (const [rule, findings] of groups) {
      lines.push(`  ${rule} (${String(findings.length)})`);
      for (const { message } of findings.slice(0, shown)) lines.push(`    - ${message}`);
      if (findings.length > shown) lines.push(`    - and ${String(findings.length - shown)} more`);
    }
  }
  return lines.join("\n");
}

/** One paragraph on a data set as read: rows, series, studies, exclusions, rows set aside, findings. */
export function datasetSummary(dataset: Dataset): string {
  const { tests, studies, setAside } = dataset;
  const series = new Set(tests.texts("series_id")).size;
  const excluded = tests.excluded().length;
  const counts = countBySeverity(dataset.diagnostics);
  return [
    `${dataset.name}: ${counted(tests.length, "usable row")} in ${counted(series, "series", "series")} of ${counted(studies.length, "study", "studies")}; ${String(excluded)} of them excluded with a reason`,
    `${counted(setAside.length, "row")} set aside; ${counted(counts.error, "error")}, ${counted(counts.warning, "warning")}, ${counted(counts.information, "note")}`,
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
