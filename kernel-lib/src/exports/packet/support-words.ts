import type { Proposal } from "../../proposals";

/** The criterion of a proposal, and whether its own tests show that a reduction is needed. */
export function supportWords({
  criterion,
  supported,
}: Pick<Proposal, "criterion" | "supported">): string {
  const by = criterion === undefined ? "no criterion stated" : `criterion "${criterion}"`;
  return supported === undefined
    ? by
    : `${by}; ${supported ? "the tests show that a reduction is needed" : "supported: no, the tests do not show that a reduction is needed"}`;
}
