export { createRandom } from "./create-random";
export type { Random } from "./create-random";
