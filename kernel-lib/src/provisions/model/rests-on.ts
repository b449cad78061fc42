import type { ProvisionDefinition } from "./definition";
import { edgesUnstated, strengthUnstated } from "./needs";
import type { CodePrediction, ProvisionColumn } from "./predict";
import { assumedAt, substitutionFinder } from "./substituted";

const EDGES_READ_AS_REMOTE =
  "neither an edge distance nor other_edges = far is stated: every edge is treated as remote";
const STRENGTH_NO_CAP = "bar strength not stated: the stress developed is not limited by it";

/**
 * What the capacity of one provision rests on that the row does not state, in one wording for hand
 * calculations, predictions, checks and comparisons: inputs replaced by another, assumptions the
 * user made by name, edges and a bar strength read as the plain case.
 * @returns the findings for a row of the prediction; none where the capacity is withheld
 * @example restsOnFinder(prediction, prediction.columns[0])(12)
 */
export function restsOnFinder(
  prediction: CodePrediction,
  column: ProvisionColumn,
): (i: number) => string[] {
  const found = inputsNotStated(prediction, column.provision);
  return (i) => (Number.isNaN(column.capacity[i] ?? NaN) ? [] : found(i));
}

/** The same for a capacity that the caller knows to be stated. */
export function inputsNotStated(
  prediction: CodePrediction,
  provision: ProvisionDefinition,
): (i: number) => string[] {
  const replaced = substitutionFinder(prediction, { provision });
  const [edges, strength] = [
    edgesUnstated(prediction, provision),
    strengthUnstated(prediction, provision),
  ];
  return (i) => {
    const found = replaced(i);
    return [
      ...(found === null ? [] : [found]),
      ...assumedAt(prediction, { provision }, i),
      ...(edges?.(i) === true ? [EDGES_READ_AS_REMOTE] : []),
      ...(strength?.(i) === true ? [STRENGTH_NO_CAP] : []),
    ];
  };
}
