export { characteristicBySeries, FEWEST_SERIES, type CharacteristicBySeries, type CharacteristicBySeriesInput } from "./characteristic-by-series";
