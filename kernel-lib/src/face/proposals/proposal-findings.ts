import {
  compare,
  type Comparison as Pairs,
  type ComparisonSettings,
  type GroupSettings,
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

/** On what the findings about a proposal rest. */
export interface FindingsTold {
  readonly code: CodeDefinition;
  /** The tests that it is judged on. */
  readonly tests: TestTable;
  readonly proposed: readonly ProposedChange[];
  readonly settings: ComparisonSettings;
  readonly question: GroupSettings;
  /** Factors of the groups, where the proposal was derived from them. */
  readonly factors: readonly DerivedFactor[];
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
    this.#pairs ??= compare(this.told.tests, this.told.code, this.told.settings);
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
    const found = this.#beside.get(k) ?? compare(tests, base, settings);
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

  /** What the tests require of each factor without each part of them, on the code it is judged on. */
  leftOut(part: LeftOutUnit): LeftOutOfGroup[] {
    return this.evidence.flatMap(({ factors, groups, applied }, k) => {
      const derivation = new FactorDerivation(this.pairsOf(k), this.told.question);
      return factors.flatMap((factor): LeftOutOfGroup[] => {
        const group = groups.find(({ label }) => label === factor.label)!;
        const proposed = applied.get(factor.label) ?? null;
        if (proposed === null || factor.exact === null) return [];
        const leftOut = derivation.leaveOut(group, factor.criterion, part, proposed);
        return [{ label: factor.label, exact: factor.exact, proposed, leftOut }];
      });
    });
  }

  /** Before and after, in groups by columns. */
  changeBy(columns: readonly string[]): BeforeAfter {
    const { tests, code, proposed, settings, question } = this.told;
    const key = columns.join(" ");
    const found =
      this.#changes.get(key) ??
      beforeAfterOf(tests, code, proposed, columns, { ...settings, ...question });
    this.#changes.set(key, found);
    return found;
  }
}
