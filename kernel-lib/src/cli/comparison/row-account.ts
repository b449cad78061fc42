import type { CountedStatus, RowAccount } from "../../comparison";

/**
 * The account of rows for `--format json`; every mode observed stands under `judged`, with 0 where
 * nothing of it is judged.
 */
export function accountJson(account: RowAccount): Record<string, unknown> {
  const lowerBounds = (failureMode: string): number =>
    account.judged.reduce(
      (sum, one) => (one.failureMode === failureMode ? sum + one.lowerBounds : sum),
      0,
    );
  return {
    read: account.read,
    rejected: account.rejected,
    excluded: account.excluded,
    not_judged: account.notJudged,
    judged: account.observed.map(({ failureMode, judged }) => ({
      failure_mode: failureMode,
      n: judged,
      n_lower_bounds: lowerBounds(failureMode),
    })),
    ...(account.scope === "all" ? { pooled: account.pooled } : {}),
    assumed: account.assumed,
  };
}

/** The account of rows in lines of text: the parts add up to the rows read. */
export function accountLines(account: RowAccount): string[] {
  const sum = (parts: readonly { readonly n: number }[]): number =>
    parts.reduce((total, { n }) => total + n, 0);
  const judged = account.observed.reduce((total, one) => total + one.judged, 0);
  const statuses = (parts: readonly CountedStatus[]): string[] =>
    parts.map(({ status, reason, n }) => `  ${String(n)}: ${status}: ${reason}`);
  const part = (title: string, n: number, lines: readonly string[]): string[] => [
    `${String(n)} ${title}${n > 0 ? ":" : ""}`,
    ...(n > 0 ? lines : []),
  ];
  const reasons = (parts: readonly { readonly reason: string; readonly n: number }[]): string[] =>
    parts.map(({ reason, n }) => `  ${String(n)}: ${reason}`);
  return [
    `Account of ${String(account.read)} rows read (scope: ${account.scope}):`,
    ...part("rejected on reading", sum(account.rejected), reasons(account.rejected)),
    ...part("excluded", sum(account.excluded), reasons(account.excluded)),
    ...part("not judged", sum(account.notJudged), statuses(account.notJudged)),
    ...(account.scope === "all"
      ? part("not judged, pooled", sum(account.pooled), statuses(account.pooled))
      : []),
    ...part(
      "judged",
      judged,
      account.judged.map(
        ({ mode, failureMode, failures, lowerBounds }) =>
          `  ${words(mode)}, observed ${words(failureMode)}: ${String(failures + lowerBounds)}${lowerBounds > 0 ? ` (${failures > 0 ? String(lowerBounds) : "all"} lower bounds only)` : ""}`,
      ),
    ),
    `Observed modes, judged of all: ${account.observed.map(({ failureMode, n, judged: of }) => `${words(failureMode)} ${String(of)} of ${String(n)}`).join("; ")}`,
    ...(account.assumed.length > 0
      ? ["Rows that rest on a named assumption:", ...reasons(account.assumed)]
      : []),
  ];
}

function words(name: string): string {
  return name.replaceAll("_", " ");
}
