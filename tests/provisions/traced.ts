import type { TestRowInput } from "../../kernel-lib/src/dataset";
import { code, trace, type PredictionSettings, type Trace } from "../../kernel-lib/src/provisions";
import { table } from "./specimens";

const aci = code("aci318-19");

/** The trace of one ACI 318-19 provision for one row. */
export function traced(
  id: string,
  row: Partial<TestRowInput>,
  settings: PredictionSettings = {},
): Trace {
  const provision = aci.provisions.find((candidate) => candidate.id === id);
  if (!provision) throw new Error(id);
  return trace(aci, provision, table(row), 0, settings);
}
