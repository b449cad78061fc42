import {
  compare,
  comparisonSettings,
  groupRatios,
  type Comparison,
  type RatioGroup,
} from "../../comparison";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import { applyProposals, codeBeforeChange, provisionOf } from "../apply-proposal";
import { changedEvidence } from "../change-evidence";
import { FactorDerivation, type Criterion, type FactorSettings } from "../criteria";
import { changedProvisions, type ProposedChange } from "../proposal";
import { groupReliability, loadModel } from "../reliability";
import { testedScope } from "../tested-scope";
import { usesOfResult } from "../uses-of-result";
import { againstWords } from "./against";
import type { BallotSheet, SheetConsequence } from "./sheet";
import { sheetClass, used, type ClassTold } from "./sheet-class";
import { doubtsOf } from "./doubts";
import { workedAnchor } from "./worked-anchor";

/** What a ballot sheet is made from. */
export interface BallotSheetInput {
  /** The comparison with the present code. */
  readonly present: Comparison;
  /** All changes of the proposal; the sheet is of those of one provision. */
  readonly changes: readonly ProposedChange[];
  readonly provision: string;
  readonly question?: FactorSettings;
  /** The researcher's words why a change stands that its own tests do not support. */
  readonly statement?: string;
}

const TARGET = 3.5;
const BY = ["mode", "bar_material"] as const;

/**
 * The ballot sheet of one provision: what changes, on what evidence, at what price, and what speaks
 * against it. Before is the present code (beside another change of the proposal whose result the
 * provision uses: that code); after is the code with all changes of the proposal.
 *
 * Not supported by its own evidence: a class meets the target index without a factor, or the factor
 * does not remain adequate without one of its studies, or the tests do not show that a reduction is
 * needed; then it stands by the researcher's statement, or not at all.
 * @throws Error for a provision that no change is of
 * @example ballotSheet({ present: comparison, changes: [proposal], provision: "aci318-19/17.6.5" }).status
 */
export function ballotSheet(input: BallotSheetInput): BallotSheet {
  const { present, changes, provision: id, question = {}, statement } = input;
  const { tests } = present;
  const own = changes.filter((one) => changedProvisions(one)[0] === id);
  const first = own[0];
  if (first === undefined) throw new Error(`No change is of ${id}; expected a changed provision.`);
  const asked = comparisonSettings(present);
  const baseCode = codeBeforeChange(present.code, changes, changes.indexOf(first));
  const changedCode = applyProposals(present.code, changes);
  const before = baseCode === present.code ? present : compare(tests, baseCode, asked);
  const after = compare(tests, changedCode, asked);
  const provision = provisionOf(present.code, id) ?? provisionOf(changedCode, id)!;
  const ids = [...new Set(own.flatMap(changedProvisions))];
  const added = !provisionOf(present.code, id);
  const groupsOf = (pairs: Comparison, provisions: readonly string[]): RatioGroup[] =>
    groupRatios(
      {
        ...pairs,
        evidence: pairs.evidence.filter(({ column }) =>
          provisions.includes(pairs.prediction.columns[column]?.provision.id ?? ""),
        ),
        notJudged: [],
      },
      BY,
      question,
    );
  const [old, now] = [groupsOf(before, ids), groupsOf(after, ids)];
  const target = question.reliability?.index ?? TARGET;
  const loads = question.reliability?.loads ?? loadModel("nowak-2003");
  const told: ClassTold = {
    derivation: new FactorDerivation(added ? after : before, question),
    reliability: groupReliability(tests, added ? changedCode : baseCode, { loads }),
    factorOf: factorsOnRows(before, own),
    criterion: criterionOf(own),
    own,
  };
  const classes = (added ? now : old)
    .filter(({ by }) => touchedOrSteel(by, now, old, told))
    .map((group) =>
      sheetClass(
        added ? null : group,
        now.find(({ label }) => label === group.label) ?? null,
        told,
      ),
    );
  const frp = (added ? now : old).filter(({ by }) => by["bar_material"] !== "steel");
  const touched = frp.filter(({ label }) => classes.some((one) => one.label === label));
  const rows = [...new Set(touched.flatMap(({ evidence }) => evidence.map(({ row }) => row)))];
  const consequences = consequencesOf(present.code, provision, (user) => [
    groupsOf(before, [user]),
    groupsOf(compare(tests, applyProposals(baseCode, own), asked), [user]),
  ]);
  const scope = testedScope(tests, rows, present.code);
  const bare = { provision, changes: own, target, classes, consequences, scope };
  const doubts = doubtsOf(bare);
  return {
    ...bare,
    code: present.code,
    loads: loads.title,
    status:
      doubts.length === 0
        ? "supported"
        : statement === undefined
          ? "not supported"
          : "stands by statement",
    doubts,
    statement: statement ?? null,
    example: workedAnchor(tests, rows, provision, [baseCode, changedCode], asked),
    against: againstWords(bare, doubts),
    beside:
      baseCode === present.code
        ? []
        : changes.filter((one) => !own.includes(one) && "symbol" in one).map((one) => one.title),
    groups: old,
  };
}

function criterionOf(own: readonly ProposedChange[]): Criterion {
  const stated = own.flatMap((one) => ("factor" in one ? (one.criterion ?? []) : []));
  return stated[0] ?? "fractile";
}

/** The factor that the changes put on the capacity of each row; NaN where it is withheld. */
function factorsOnRows(
  before: Comparison,
  own: readonly ProposedChange[],
): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (const change of own)
    for (const { one, factor } of changedEvidence(before, change))
      found.set(one.row, (found.get(one.row) ?? 1) * Number(factor.toPrecision(12)));
  return found;
}

/** Steel stands beside; other classes where the change alters or withholds a capacity. */
function touchedOrSteel(
  by: RatioGroup["by"],
  now: readonly RatioGroup[],
  old: readonly RatioGroup[],
  { factorOf, own }: ClassTold,
): boolean {
  if (by["bar_material"] === "steel") return true;
  const same = (one: RatioGroup): boolean => JSON.stringify(one.by) === JSON.stringify(by);
  const group = old.find(same);
  if (group === undefined) return own.some((one) => "kind" in one && now.some(same));
  return group.evidence.some(({ row }) => factorOf.has(row));
}

/** The groups of the provisions that use the changed result, and move with it. */
function consequencesOf(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  sides: (user: string) => readonly [readonly RatioGroup[], readonly RatioGroup[]],
): SheetConsequence[] {
  if (!code.provisions.includes(provision)) return [];
  return usesOfResult(code, provision).flatMap(({ id }) => {
    const [before, after] = sides(id);
    return before.flatMap((group): SheetConsequence[] => {
      const now = after.find(({ label }) => label === group.label);
      return now !== undefined && now.mean === group.mean
        ? []
        : [
            {
              clause: id.slice(id.indexOf("/") + 1),
              label: group.label,
              lowerBefore: group.lower,
              lowerAfter: now?.lower ?? null,
              usedBefore: used(group),
              usedAfter: now === undefined ? null : used(now),
            },
          ];
    });
  });
}
