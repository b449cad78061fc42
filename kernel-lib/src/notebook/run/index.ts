export { NO_CACHE_TAG } from "./cached-run";
export { CellSession } from "./cell-session";
export type { CellRun } from "./cell-session";
export { inOrder, severalAtATime } from "./in-order";
export type { InOrder } from "./in-order";
export { KernelSupply } from "./kernel-supply";
export { partialFile } from "./keep-result";
export type { CellRunStatus, OnProgress, RunProgress } from "./progress";
export { readParameters } from "./read-parameters";
export type { Parameter, ParameterValue } from "./read-parameters";
export {
  libraryFolder,
  projectFolder,
  readRecord,
  recordEnvironment,
} from "./recorded-environment";
export type { RecordedEnvironment } from "./recorded-environment";
export { openSession, runNotebook } from "./run-notebook";
export type { NotebookRun, RunOptions } from "./run-notebook";
export { runNotebooks } from "./run-notebooks";
export type { RunNotebooksOptions } from "./run-notebooks";
export { selectCells } from "./select-cells";
export { INJECTED_TAG, parseSetting, setParameters } from "./set-parameters";
