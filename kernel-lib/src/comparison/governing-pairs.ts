import type { governing, CodePrediction } from "../provisions";
import type { Pair } from "./pairs-of-test";
import type { ScopeRule } from "./scope";

/**
 * The pair of the least capacity; where the code has none for the mode that was observed, what
 * keeps it from one.
 */
export function governingPairs(
  prediction: CodePrediction,
  rule: ScopeRule,
  least: ReturnType<typeof governing>,
  pairs: readonly Pair[],
  row: number,
  observed: string | null,
): Pair[] {
  const column = least.column[row] ?? -1;
  const provision = prediction.columns[column]?.provision;
  if (!provision || observed === "unknown" || observed === null)
    return pairs.filter(({ capacity }) => Number.isNaN(capacity));
  const bound = observed === "rupture_at_grip" || observed === "stopped";
  // Where the code has no capacity for the mode that was observed, the least of the others is no
  // prediction of the test.
  const foresees = prediction.columns.some(
    (other) =>
      (other.provision.modes as readonly string[]).includes(observed) &&
      other.provision.action === provision.action &&
      !Number.isNaN(other.capacity[row]),
  );
  if (!bound && !foresees)
    return pairs.filter((pair) => !pair.bound && Number.isNaN(pair.capacity));
  const status = rule.at(row, column, (provision.modes as readonly string[]).includes(observed));
  return [
    {
      column,
      mode: provision.modes[0],
      capacity: (least.capacity[row] ?? NaN) / 1000,
      bound,
      status,
      free: true,
    },
  ];
}
