import type { TestTable } from "../dataset";
import { clauseOf, interactionAt, type CodePrediction } from "../provisions";
import { valueWords } from "./labels";
import type { Pair } from "./pairs-of-test";
import type { NotJudgedStatus, PairStatus, ScopeRule } from "./scope";

/** Column of a pair that belongs to no single provision. */
export const NO_COLUMN = -1;

/**
 * The one pair of a test with tension and shear: the resultant against that of the code's
 * interaction, in the group "interaction".
 *
 * It is a value of the interaction whatever mode was observed, since a code joins the least
 * capacities of both actions; a lower bound where the test was stopped or the bar broke in its
 * grip. It is judged where both capacities are that the governing equation joins.
 */
export function interactionPair(
  prediction: CodePrediction,
  tests: TestTable,
  rule: ScopeRule,
  row: number,
): Pair {
  const observed = tests.text(row, "failure_mode");
  const found = interactionAt(prediction, row);
  const governing = found?.governing ?? null;
  const pair = {
    column: NO_COLUMN,
    mode: "interaction" as const,
    capacity: (found?.capacity ?? NaN) / 1000,
    bound: observed === "stopped" || observed === "rupture_at_grip",
    free: true,
    ...(governing === null
      ? {}
      : { components: { tension: governing.tension, shear: governing.shear } }),
  };
  const { code } = prediction;
  if (observed === null || observed === "unknown")
    return {
      ...pair,
      capacity: NaN,
      status: status("input missing", "the failure mode is unknown"),
    };
  if (found === null)
    return {
      ...pair,
      status: status(
        "capacity of another mode",
        `${code.id} states no interaction of tension and shear`,
      ),
    };
  if (governing === null)
    return {
      ...pair,
      status: withoutCapacity(prediction, rule, row, observed, found.without[0] ?? "shear"),
    };
  if (Number.isNaN(found.angle))
    return { ...pair, status: status("input missing", "load_angle_deg is blank") };
  const both = [governing.tension, governing.shear].map((column) =>
    rule.at(
      row,
      column,
      (prediction.columns[column]?.provision.modes as readonly string[] | undefined)?.includes(
        observed,
      ) ?? false,
    ),
  );
  return { ...pair, status: both.find((one) => one.status !== "judged") ?? both[0]! };
}

/** What keeps the action without a capacity from one: the provision that lacks least. */
function withoutCapacity(
  { code, level, columns }: CodePrediction,
  rule: ScopeRule,
  row: number,
  observed: string,
  action: "tension" | "shear",
): PairStatus {
  const candidates = columns.flatMap(({ provision }, k) =>
    provision.action === action
      ? [
          {
            provision,
            at: rule.at(row, k, (provision.modes as readonly string[]).includes(observed)),
          },
        ]
      : [],
  );
  const nearest = candidates.reduce<(typeof candidates)[number] | null>(
    (best, one) => (best === null || one.at.rank < best.at.rank ? one : best),
    null,
  );
  if (nearest === null)
    return status(
      "capacity of another mode",
      `${code.id} states no capacity in ${action} at the ${level} level`,
    );
  const says = nearest.at.reason.startsWith(clauseOf(nearest.provision.id))
    ? nearest.at.reason
    : `${clauseOf(nearest.provision.id)}, ${valueWords(nearest.provision.modes[0])}: ${nearest.at.reason}`;
  return {
    ...nearest.at,
    status: nearest.at.status === "judged" ? "input missing" : nearest.at.status,
    reason: `no capacity in ${action} (${says})`,
  };
}

function status(of: NotJudgedStatus, reason: string): PairStatus {
  return { status: of, reason, value: "", rank: 0 };
}
