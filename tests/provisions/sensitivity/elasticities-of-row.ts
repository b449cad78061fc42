import type { TestRowInput } from "../../../kernel-lib/src/dataset";
import {
  code,
  elasticities,
  type CapacityElasticities,
  type PredictionSettings,
  type RowElasticities,
} from "../../../kernel-lib/src/provisions";
import { table } from "../specimens";

/** Elasticities of the capacities of one row. */
export const of = (
  row: Partial<TestRowInput>,
  id = "aci318-19",
  settings: PredictionSettings & { within?: number } = {},
): RowElasticities => elasticities(code(id), table(row), 0, settings);
/** Those of one provision; throws where it is not among them. */
export const capacity = (all: RowElasticities, id: string): CapacityElasticities => {
  const found = all.capacities.find(({ provision }) => provision.id === id);
  if (!found)
    throw new Error(`no ${id}: ${all.capacities.map(({ provision }) => provision.id).join()}`);
  return found;
};
