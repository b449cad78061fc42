export { cannotTell } from "./account";
export type { Account, CannotTell, CannotTellReason, SetAside } from "./account";
export { cleanSample } from "./clean-sample";
export type { CleanSample } from "./clean-sample";
export { joinSetAside } from "./join-set-aside";
export { requireShares } from "./require-shares";
