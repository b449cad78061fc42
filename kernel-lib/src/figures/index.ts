export type { Figure, FigureText, Layout, PlotValue, PrintSize, Trace } from "./figure";
export { inventedStamp } from "./frame";
export type { FittedLine } from "./fitted-line";
export * from "./ratio-strip";
export * from "./test-against-predicted";
export * from "./ratio-against-variable";
export * from "./mode-map";
export * from "./before-after";
