import type { FactorCase } from "../proposals";
import { Proposal } from "./proposals/proposal";
import type { Setting } from "./results/result";
import { LEVEL, QUESTION } from "./packet-question";

type Found = Pick<FactorCase, "tests" | "present" | "proposals" | "factors">;

/** The proposal of a packet, on the tests that the packet looked at. */
export function packetProposal(
  { tests, present, proposals, factors }: Found,
  setting: Setting,
): Proposal {
  return new Proposal({
    setting,
    code: present,
    tests,
    proposed: proposals,
    settings: { level: LEVEL },
    question: QUESTION,
    factors,
    step: 0.05,
    nothing: "No mode has a factor below 1.0 for every class of FRP bars.",
  });
}
