import type { BeforeAfter, ProposedChange } from "../../proposals";

/** The groups that the proposal touches: the others are no matter of its own. */
export function changedGroups(found: BeforeAfter): BeforeAfter["groups"] {
  return found.groups.filter(
    ({ before, after }) => before.mean !== after.mean || before.verdict !== after.verdict,
  );
}

/** A proposal before and after, as a table for the terminal. */
export function asText(proposal: ProposedChange, found: BeforeAfter, outside: number): string {
  const number = (value: number | null): string => (value === null ? "" : value.toFixed(3));
  const changed = changedGroups(found);
  const having = (verdict: string): string[] =>
    changed.filter(({ after }) => after.verdict === verdict).map(({ label }) => label);
  const rows = [
    ["group", "n", "mean", "then", "r_k", "then", "upper bound", "then", "verdict in general"],
    ...changed.map(({ label, before, after }) => [
      label,
      String(before.n),
      number(before.mean),
      number(after.mean),
      number(before.lower),
      number(after.lower),
      number(before.upper),
      number(after.upper),
      before.verdict === after.verdict ? before.verdict : `${before.verdict} -> ${after.verdict}`,
    ]),
  ];
  const widths = (rows[0] ?? []).map((_, k) =>
    Math.max(...rows.map((cells) => (cells[k] ?? "").length)),
  );
  const lines = rows.map((cells) =>
    cells
      .map((cell, k) =>
        k > 0 && k < 8 ? cell.padStart(widths[k] ?? 0) : cell.padEnd(widths[k] ?? 0),
      )
      .join("  ")
      .trimEnd(),
  );
  const list = (title: string, labels: readonly string[]): string[] =>
    labels.length > 0 ? [`${title}: ${labels.join("; ")}`] : [];
  return [
    `Proposal ${proposal.id}: ${proposal.title}`,
    proposal.says,
    "",
    ...(changed.length > 0
      ? ["Test-to-predicted ratios, present and proposed:", ...lines]
      : ["No group changes."]),
    "",
    `${found.groups.length - changed.length} groups are as before.`,
    ...list("Now meet", found.nowMeet),
    ...list("Still fall short", having("falls short")),
    ...list("Undecided", having("undecided")),
    ...list("No longer permitted", found.withdrawn),
    ...list("New", found.added),
    ...(outside > 0 ? [`${outside} tests lie outside the proposal's limits of validity.`] : []),
    "A proposal is evidence for a committee, not a design rule. Design must follow the code in force and a licensed engineer.",
  ].join("\n");
}
