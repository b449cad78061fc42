import type { ProvisionDefinition } from "./definition";
import { governing } from "./governing";
import type { CodePrediction } from "./predict";
import { reasonsAt } from "./reasons";
import { testReaches } from "./setup-modes";

/** What one provision says of the rows of a prediction. */
export interface ProvisionUse {
  readonly provision: ProvisionDefinition;
  /** Rows whose action and set-up can reach one of its modes. */
  readonly reached: number;
  /** Of these, rows with a capacity, and rows in which it is the least. */
  readonly capacities: number;
  readonly governs: number;
  /** Why the others have none, most frequent first; a row may have several reasons. */
  readonly reasons: readonly { readonly says: string; readonly rows: number }[];
}

/**
 * For each provision of a prediction: how many rows can reach it, have a capacity, are governed by
 * it, and why the others have none.
 * @example provisionUse(predict(code("aci318-19"), tests)).filter(({ capacities }) => capacities === 0)
 */
export function provisionUse(prediction: CodePrediction): ProvisionUse[] {
  const { columns, specimens } = prediction;
  const least = governing(prediction).column;
  const [actions, setups] = [specimens.tests.texts("action"), specimens.tests.texts("setup")];
  return columns.map((column, k) => {
    const { provision, capacity } = column;
    const reasons = new Map<string, number>();
    let [reached, capacities, governs] = [0, 0, 0];
    for (let row = 0; row < specimens.length; row++) {
      if (!testReaches(actions[row] ?? null, setups[row] ?? null, provision)) continue;
      reached++;
      if (least[row] === k) governs++;
      if (!Number.isNaN(capacity[row])) capacities++;
      else
        for (const says of new Set(reasonsAt(prediction, column, row).map((one) => one.says)))
          reasons.set(says, (reasons.get(says) ?? 0) + 1);
    }
    return {
      provision,
      reached,
      capacities,
      governs,
      reasons: [...reasons].map(([says, rows]) => ({ says, rows })).sort((a, b) => b.rows - a.rows),
    };
  });
}
