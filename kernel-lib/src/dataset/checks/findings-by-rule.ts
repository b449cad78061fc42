import type { Diagnostic, Severity } from "../diagnostics";

/** The findings of one rule. */
export interface RuleFindings {
  readonly severity: Severity;
  readonly rule: string;
  readonly count: number;
  /**
   * Studies, files or rows are named in the findings themselves; this is the first one's sentence.
   */
  readonly first: string;
}

const ORDER: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2 };

/** Findings counted by rule: errors first, then warnings, the most frequent rule first. */
export function findingsByRule(diagnostics: ReadonlyArray<Diagnostic>): RuleFindings[] {
  const groups = new Map<string, RuleFindings>();
  for (const { severity, rule, message } of diagnostics) {
    const key = `${severity} ${rule}`;
    const known = groups.get(key);
    groups.set(
      key,
      known === undefined
        ? { severity, rule, count: 1, first: message }
        : { ...known, count: known.count + 1 },
    );
  }
  return [...groups.values()].sort(
    (a, b) => ORDER[a.severity] - ORDER[b.severity] || b.count - a.count,
  );
}
