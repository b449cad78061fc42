export { registerKernelCommand } from "./kernel";
export { registerReviewCommand, reviewCommand } from "./review";
export { registerRunCommand, runCommand } from "./run";
