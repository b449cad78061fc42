export {
  elasticities,
  type CapacityElasticities,
  type Elasticity,
  type RowElasticities,
} from "./elasticities";
export type { NearbySwitch } from "./nearby-switches";
export { variableWords, type RowVariable } from "./row-inputs";
