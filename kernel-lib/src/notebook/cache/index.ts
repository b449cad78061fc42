export { cellKeys } from "./cell-keys";
export { ResultCache } from "./result-cache";
export type { CachedCell } from "./result-cache";
