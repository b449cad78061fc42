export * from "./random";
export * from "./distributions";
export * from "./result";
export * from "./tolerance";
export * from "./sample";
export * from "./normality";
export * from "./outliers";
export * from "./comparison";
