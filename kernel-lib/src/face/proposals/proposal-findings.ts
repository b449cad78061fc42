import {
  compare,
  type Comparison as Pairs,
  type ComparisonSettings,
  type GroupSettings,
  type RatioGroup,
} from "../../comparison";
import type { TestTable } from "../../dataset";
import {
  beforeAfterOf,
  codeBeforeChange,
  evidenceOfChange,
  FactorDerivation,
  type BeforeAfter,
  type ChangeEvidence,
  type DerivedFactor,
  type LeftOut,
  type LeftOutUnit,
  type ProposedChange,
} from "../../proposals";
import type { CodeDefinition } from "../../provisions";
import { chosenPairs, rowsChosen } from "./judged-groups";

/** On what the findings about a proposal rest. */
export interface FindingsTold {
  readonly code: CodeDefinition;
  /** The tests that it is judged on. */
  readonly tests: TestTable;
  readonly proposed: readonly ProposedChange[];
  readonly settings: ComparisonSettings;
  /** The comparison with the present code, where rows or modes of it were chosen. */
  readonly chosen?: Pairs;
  readonly question: GroupSettings;
  /** Factors of the groups, where the proposal was derived from them. */
  readonly factors: readonly DerivedFactor[];
}

/** A group that a factor of the proposal changes, on the code that the change is judged on. */
export interface ChangedGroup {
  readonly group: RatioGroup;
  readonly factor: DerivedFactor;
  /** What its tests require. */
  readonly exact: number;
  /** The factor on its capacity, its mean where it varies. */
  readonly proposed: number;
  readonly derivation: FactorDerivation;
}

/** The factor of a group without each part of the evidence. */
export interface LeftOutOfGroup {
  readonly label: string;
  readonly exact: number;
  readonly proposed: number;
  readonly leftOut: readonly LeftOut[];
}

/** The comparisons behind a proposal, each made when first asked for and kept. */
export class ProposalFindings {
  #pairs: Pairs | null = null;
  readonly #beside = new Map<number, Pairs>();
  #evidence: readonly ChangeEvidence[] | null = null;
  readonly #changes = new Map<string, BeforeAfter>();

  constructor(private readonly told: FindingsTold) {}

  /** The comparison with the present code. */
  get pairs(): Pairs {
    this.#pairs ??=
      this.told.chosen ?? compare(this.told.tests, this.told.code, this.told.settings);
    return this.#pairs;
  }

  /**
   * The comparison that a change is judged on: with the present code, or with what the other changes
   * make of the results that its provision uses.
   * @param k number of the change, from 0
   */
  pairsOf(k: number): Pairs {
    const { tests, code, proposed, settings } = this.told;
    const base = codeBeforeChange(code, proposed, k);
    if (base === code) return this.pairs;
    const found = this.#beside.get(k) ?? rowsChosen(compare(tests, base, settings), this.pairs);
    this.#beside.set(k, found);
    return found;
  }

  /** The tests behind each change. */
  get evidence(): readonly ChangeEvidence[] {
    const { proposed, question, factors } = this.told;
    this.#evidence ??= proposed.map((one, k) => {
      const pairs = this.pairsOf(k);
      // Factors of the present code say nothing of a provision that other changes reach.
      return evidenceOfChange(pairs, one, question, pairs === this.pairs ? factors : []);
    });
    return this.#evidence;
  }

  /** The groups that a factor of the proposal changes, and what their tests require. */
  get changedGroups(): readonly ChangedGroup[] {
    return this.evidence.flatMap(({ factors, groups, applied }, k) => {
      const derivation = new FactorDerivation(this.pairsOf(k), this.told.question);
      return factors.flatMap((factor): ChangedGroup[] => {
        const group = groups.find(({ label }) => label === factor.label)!;
        const proposed = applied.get(factor.label) ?? null;
        const { exact } = factor;
        if (proposed === null || exact === null) return [];
        return [{ group, factor, exact, proposed, derivation }];
      });
    });
  }

  /** What the tests require of each factor without each part of them. */
  leftOut(part: LeftOutUnit): LeftOutOfGroup[] {
    return this.changedGroups.map(({ group, factor, exact, proposed, derivation }) => ({
      label: factor.label,
      exact,
      proposed,
      leftOut: derivation.leaveOut(group, factor.criterion, part, proposed),
    }));
  }

  /** Before and after, in groups by columns. */
  changeBy(columns: readonly string[]): BeforeAfter {
    const { tests, code, proposed, settings, question, chosen } = this.told;
    const key = columns.join(" ");
    const found =
      this.#changes.get(key) ??
      beforeAfterOf(tests, code, proposed, columns, {
        ...settings,
        ...question,
        ...(chosen === undefined ? {} : { pairs: chosenPairs(chosen) }),
      });
    this.#changes.set(key, found);
    return found;
  }
}
