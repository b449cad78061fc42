import {
  compare,
  groupRatios,
  type Comparison,
  type Evidence,
  type GroupSettings,
  type RatioGroup,
} from "../comparison";
import type { SensitivityResults } from "../exports/packet/sensitivity-section";
import type { CodeDefinition } from "../provisions";
import { LEVEL, QUESTION } from "./packet-question";
import { named } from "./packet-figures";
import type { Alternatives } from "./proposals/alternatives";
import type { Proposal } from "./proposals/proposal";

/** What a packet compares its answer with. */
export interface SensitivitySettings {
  /** Codes under which the same groups are shown; default none. */
  readonly otherCodes?: readonly CodeDefinition[];
  /** Alternatives that a notebook has compared; default none. */
  readonly alternatives?: Alternatives;
}

interface Asked {
  readonly comparison: Comparison;
  /** Groups of every mode under the present code. */
  readonly groups: readonly RatioGroup[];
  readonly proposal: Proposal;
  readonly settings: SensitivitySettings;
}

/** Other codes, alternatives, distributions and choices of one packet. */
export function sensitivityOf(asked: Asked): SensitivityResults {
  const { comparison, groups, proposal, settings } = asked;
  const { otherCodes = [], alternatives } = settings;
  const { code, tests } = comparison;
  const others = otherCodes.filter(({ id }) => id !== code.id);
  return {
    codes: [
      { code: named(code), groups },
      ...others.map((one) => ({
        code: named(one),
        groups: groupsOf(compare(tests, one, { level: LEVEL })),
      })),
    ],
    ...(alternatives === undefined ? {} : { alternatives: alternatives.outcomes }),
    distributions: distributionsOf(comparison, groups),
    choices: proposal.choices().found,
  };
}

/** The groups of FRP bars that have a verdict in general, by both distributions. */
function distributionsOf(
  comparison: Comparison,
  groups: readonly RatioGroup[],
): SensitivityResults["distributions"] {
  const judged = groups.filter(({ lower, by }) => lower !== null && by["bar_material"] !== "steel");
  const pair = ({ row, column, mode }: Evidence): string => `${row} ${column} ${mode}`;
  const pairs = new Set(judged.flatMap(({ evidence }) => evidence.map(pair)));
  const some = {
    ...comparison,
    evidence: comparison.evidence.filter((one) => pairs.has(pair(one))),
  };
  const [normal, lognormal] = (["normal", "lognormal"] as const).map((distribution) =>
    groupsOf(some, { distribution }),
  );
  return judged.flatMap(({ label, n }) => {
    const of = (list: readonly RatioGroup[] | undefined): RatioGroup | undefined =>
      list?.find((one) => one.label === label);
    const [a, b] = [of(normal), of(lognormal)];
    return a && b ? [{ label, n, normal: a, lognormal: b }] : [];
  });
}

function groupsOf(comparison: Comparison, settings: GroupSettings = {}): RatioGroup[] {
  return groupRatios(comparison, ["mode", "bar_material"], { ...QUESTION, ...settings });
}
