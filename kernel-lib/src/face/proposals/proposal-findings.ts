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
  evidenceOfChange,
  FactorDerivation,
  type BeforeAfter,
  type ChangeEvidence,
  type DerivedFactor,
  type ProposedChange,
} from "../../proposals";
import type { CodeDefinition } from "../../provisions";
import { chosenPairs } from "./judged-groups";

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

/** A group that a factor of the proposal changes. */
export interface ChangedGroup {
  readonly group: RatioGroup;
  readonly factor: DerivedFactor;
  /** The factor on its capacity, its mean where it varies. */
  readonly proposed: number;
}

/** The comparisons behind a proposal, each made when first asked for and kept. */
export class ProposalFindings {
  #pairs: Pairs | null = null;
  #derivation: FactorDerivation | null = null;
  #evidence: readonly ChangeEvidence[] | null = null;
  readonly #changes = new Map<string, BeforeAfter>();

  constructor(private readonly told: FindingsTold) {}

  /** The comparison with the present code. */
  get pairs(): Pairs {
    this.#pairs ??=
      this.told.chosen ?? compare(this.told.tests, this.told.code, this.told.settings);
    return this.#pairs;
  }

  /** The tests behind each change. */
  get evidence(): readonly ChangeEvidence[] {
    const { proposed, question, factors } = this.told;
    this.#evidence ??= proposed.map((one) => evidenceOfChange(this.pairs, one, question, factors));
    return this.#evidence;
  }

  get derivation(): FactorDerivation {
    this.#derivation ??= new FactorDerivation(this.pairs, this.told.question);
    return this.#derivation;
  }

  /** The groups that a factor of the proposal changes, and what their tests require. */
  get changedGroups(): readonly ChangedGroup[] {
    return this.evidence.flatMap(({ factors, groups, applied }) =>
      factors.flatMap((factor) => {
        const group = groups.find(({ label }) => label === factor.label)!;
        const proposed = applied.get(factor.label) ?? null;
        return proposed === null || factor.exact === null ? [] : [{ group, factor, proposed }];
      }),
    );
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
