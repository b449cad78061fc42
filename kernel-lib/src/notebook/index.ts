export * from "./format";
export * from "./kernel-client";
export * from "./run";
