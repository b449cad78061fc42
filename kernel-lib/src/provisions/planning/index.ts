export { embedmentForMode } from "./embedment-for-mode";
export {
  type EmbedmentForMode,
  type EmbedmentInterval,
  type EmbedmentPoint,
  type EmbedmentSettings,
} from "./embedment-interval";
export { governingMap, type BoundaryPiece, type GoverningMap, type MapAxes } from "./governing-map";
export { governingLine, type GoverningLine, type GoverningStretch } from "./governing-line";
export { modeMargins, type ModeMargins } from "./margin-of-mode";
export type { ModeLoad, PlanningSettings } from "./mode-loads";
