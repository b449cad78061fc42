export * from "./format";
export * from "./kernel-client";
export * from "./kernelspec";
export * from "./run";
export * from "./compare";
export * from "./review";
