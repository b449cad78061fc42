/**
 * How much a finding matters: an error sets the row aside, a warning asks for a look, information
 * only tells.
 */
export type Severity = "error" | "warning" | "information";

/**
 * One finding about a file, a column, a row or a cell. Everything a reader needs to go and mend it.
 */
export interface Diagnostic {
  /** File name relative to the data set folder, or as given. */
  readonly file: string;
  /**
   * Row as a spreadsheet counts it (the header is row 1 where it comes first); null when the whole
   * file is meant.
   */
  readonly row: number | null;
  /** Column as typed in the file; null when the whole row or file is meant. */
  readonly column: string | null;
  /** The value as typed; null when there is none. */
  readonly value: string | null;
  /** What would have been right. */
  readonly expected: string;
  readonly severity: Severity;
  /** One sentence: what is wrong, the value, what was expected. */
  readonly message: string;
  /** Short name of the rule, the same for all findings of one kind. */
  readonly rule: string;
}

/** What a finding needs beyond its rule and sentence. */
export interface DiagnosticPlace {
  readonly file: string;
  readonly row?: number | null;
  readonly column?: string | null;
  readonly value?: string | null;
  readonly expected: string;
}

/** Builds a finding; long values are cut so that a report stays readable. */
export function diagnostic(
  severity: Severity,
  rule: string,
  message: string,
  place: DiagnosticPlace,
): Diagnostic {
  return {
    file: place.file,
    row: place.row ?? null,
    column: place.column ?? null,
    value: place.value === undefined || place.value === null ? null : shortened(place.value),
    expected: place.expected,
    severity,
    message,
    rule,
  };
}

/**
 * A value as shown in a message: control characters and those without width made visible, at most
 * 60 characters.
 */
export function shortened(value: string): string {
  const visible = value
    .slice(0, 200)
    .replace(
      /[\u0000-\u001f\u007f-\u009f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g,
      (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`,
    );
  return visible.length > 60 ? `${visible.slice(0, 59)}…` : visible;
}

/** Number of findings of each severity. */
export function countBySeverity(
  diagnostics: ReadonlyArray<Diagnostic>,
): Readonly<Record<Severity, number>> {
  const counts: Record<Severity, number> = { error: 0, warning: 0, information: 0 };
  for (const { severity } of diagnostics) counts[severity] += 1;
  return counts;
}

/**
 * Thrown for a file that cannot be used at all (absent, not a table). Carries the findings, so that
 * a command can print them in the same way as any other.
 */
export class DatasetError extends Error {
  override readonly name = "DatasetError";
  readonly diagnostics: ReadonlyArray<Diagnostic>;

  constructor(message: string, diagnostics: ReadonlyArray<Diagnostic> = []) {
    super(message);
    this.diagnostics = diagnostics;
  }
}
