export { createRandom } from "./create-random";
export type { Random } from "./create-random";
export { normalBlocks } from "./normal-blocks";
export type { NormalBlocks } from "./normal-blocks";
