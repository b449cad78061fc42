import type { Excluded } from "./account";

/** Adds up what several samples exclude, by reason. */
export function joinSetAside(...lists: readonly (readonly Excluded[])[]): Excluded[] {
  const counts = new Map<string, number>();
  for (const { count, reason } of lists.flat())
    counts.set(reason, (counts.get(reason) ?? 0) + count);
  return [...counts].map(([reason, count]) => ({ count, reason }));
}
