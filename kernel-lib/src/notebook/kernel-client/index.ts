export { describeExit } from "./describe-exit";
export { executeCell } from "./execute-cell";
export type { CellOutcome, ExecuteLimits } from "./execute-cell";
export { KernelClient, KernelDied } from "./kernel-client";
export type { KernelStartOptions, OutputMessage } from "./kernel-client";
export { MEMORY_ENVIRONMENT, kernelArguments, preloadFile, tslabProgram } from "./kernel-process";
export type { KernelExit } from "./kernel-process";
export { resolvePackageFile } from "./package-files";
