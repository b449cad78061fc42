export { jupyterDataFolder, kernelFolders } from "./data-folder";
export type { Surroundings } from "./data-folder";
export {
  KERNEL_DISPLAY_NAME,
  KERNEL_NAME,
  installKernel,
  kernelSpec,
  kernelStatus,
  removeKernel,
} from "./kernelspec";
export type { KernelStatus } from "./kernelspec";
