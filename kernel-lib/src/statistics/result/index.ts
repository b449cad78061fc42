export { notEstimable } from "./account";
export type { Account, NotEstimable, NotEstimableReason, Excluded } from "./account";
export { cleanSample } from "./clean-sample";
export type { CleanSample } from "./clean-sample";
export { joinSetAside } from "./join-set-aside";
export { requireShares } from "./require-shares";
