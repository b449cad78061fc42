export * from "./random";
export * from "./distributions";
export * from "./tolerance";
