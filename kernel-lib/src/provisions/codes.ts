import { aci318, aci318Metric } from "./aci318-19";
import { aci440Guide } from "./aci440.1r-15";
import { ccd, ccdCube } from "./ccd-1995";
import { en1992Fastenings } from "./en1992-4-2018";
import type { CodeDefinition } from "./model/definition";

/** Every code and model of the library. */
export const CODES: readonly CodeDefinition[] = [
  aci318,
  aci318Metric,
  aci440Guide,
  ccd,
  ccdCube,
  en1992Fastenings,
];

/**
 * A code by its id.
 * @throws Error listing the ids there are.
 * @example code("aci318-19")
 */
export function code(id: string): CodeDefinition {
  const found = CODES.find((candidate) => candidate.id === id);
  if (!found) throw new Error(`No code "${id}"; expected one of ${CODES.map((candidate) => candidate.id).join(", ")}.`);
  return found;
}
