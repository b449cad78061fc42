import {
  comparisonSettings,
  compare,
  type Comparison as Pairs,
  type Evidence,
  type GroupSettings,
  type RatioGroup,
} from "../../comparison";
import type { Setting } from "../results/result";

/** What the verbs of the groups are told of them. */
export interface JudgedGroups {
  readonly setting: Setting;
  /** File name of the groups. */
  readonly name: string;
  readonly groups: readonly RatioGroup[];
  readonly columns: readonly string[];
  readonly question: GroupSettings;
  readonly parts: readonly { readonly pairs: Pairs }[];
  /** The grouping columns in words, such as "mode, bar material". */
  readonly byWords: string;
  /** Code and level in words. */
  readonly basis: string;
  /** What the comparison says of its rows. */
  readonly rows: string;
}

/** The groups of one code, without the code among their keys. */
export interface GroupsOfCode extends JudgedGroups {
  readonly pairs: Pairs;
}

/**
 * The groups where the comparison is with one code: a factor or rule belongs to one code.
 * @throws RangeError where there are several
 */
export function ofOneCode(asked: JudgedGroups, verb: string): GroupsOfCode {
  const [only, ...others] = asked.parts;
  if (only === undefined || others.length > 0)
    throw new RangeError(
      `${verb} needs the comparison with one code, and there are ${asked.parts.map(({ pairs }) => pairs.code.id).join(", ")}; expected study.compare("${only?.pairs.code.id ?? "aci318-19"}").by(...).${verb}(...).`,
    );
  const groups = asked.groups.map(({ by, ...group }) => ({
    ...group,
    by: Object.fromEntries(Object.entries(by).filter(([column]) => column !== "code")),
  }));
  return { ...asked, groups, pairs: only.pairs };
}

/** Whether a bar of the evidence is of steel. */
export function isSteel(pairs: Pairs, row: number): boolean {
  return pairs.tests.text(row, "bar_material") === "steel";
}

/**
 * Whether a pair of the comparison with a changed code belongs to those that were chosen: the same
 * test and mode, or the same test where the governing capacity divides, since its mode may change.
 */
export function chosenPairs({ evidence, capacityOf }: Pairs): (one: Evidence) => boolean {
  const placeOf = ({ row, mode }: Evidence): string =>
    capacityOf === "governing mode" ? String(row) : `${row} ${mode}`;
  const places = new Set(evidence.map(placeOf));
  return (one) => places.has(placeOf(one));
}

/** The pairs of a comparison with a changed code that belong to those chosen. */
export function rowsChosen(changed: Pairs, chosen: Pairs): Pairs {
  return { ...changed, evidence: changed.evidence.filter(chosenPairs(chosen)) };
}

/** The same tests and code with every mode, where a condition keeps some modes only. */
export function everyMode(pairs: Pairs): Pairs {
  const rows = new Set(pairs.evidence.map(({ row }) => row));
  const whole = compare(pairs.tests, pairs.code, comparisonSettings(pairs));
  return { ...whole, evidence: whole.evidence.filter(({ row }) => rows.has(row)) };
}
