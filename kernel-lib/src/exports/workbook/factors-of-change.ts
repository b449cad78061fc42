import type { Evidence } from "../../comparison";
import type { BeforeAfter } from "../../proposals";

/**
 * Capacity with the proposals over the present one, for each piece of evidence; 1 where nothing
 * changes it.
 * @example handChecksOf(comparison, typicalEvidence(groups), factorsOfChange(change))
 */
export function factorsOfChange({ groups }: BeforeAfter): (one: Evidence) => number {
  const key = ({ row, column }: Evidence): string => `${row} ${column}`;
  const changed = new Map(
    groups.flatMap(({ after }) => after.evidence.map((one) => [key(one), one.capacity] as const)),
  );
  return (one) => (changed.get(key(one)) ?? one.capacity) / one.capacity;
}
