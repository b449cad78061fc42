export { grubbsCritical, grubbsTest } from "./grubbs";
export type { GrubbsSide, GrubbsTest } from "./grubbs";
export { generalisedEsd } from "./generalised-esd";
export type { EsdStep, EsdTest } from "./generalised-esd";
