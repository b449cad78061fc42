export { elasticities } from "./elasticities";
export {
  type CapacityElasticities,
  type Elasticity,
  type RowElasticities,
} from "./row-elasticities";
export type { NearbySwitch } from "./nearby-switches";
export { variableWords, type RowVariable } from "./row-inputs";
