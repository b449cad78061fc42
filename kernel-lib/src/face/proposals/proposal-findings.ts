import {
  compare,
  type Comparison as Pairs,
  type ComparisonSettings,
  type GroupSettings,
} from "../../comparison";
import type { TestTable } from "../../dataset";
import {
  beforeAfterOf,
  evidenceOfChange,
  type BeforeAfter,
  type ChangeEvidence,
  type DerivedFactor,
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

/** The comparisons behind a proposal, each made when first asked for and kept. */
export class ProposalFindings {
  #pairs: Pairs | null = null;
  #evidence: readonly ChangeEvidence[] | null = null;
  readonly #changes = new Map<string, BeforeAfter>();

  constructor(private readonly told: FindingsTold) {}

  /** The comparison with the present code. */
  get pairs(): Pairs {
    this.#pairs ??= compare(this.told.tests, this.told.code, this.told.settings);
    return this.#pairs;
  }

  /** The tests behind each change. */
  get evidence(): readonly ChangeEvidence[] {
    const { proposed, question, factors } = this.told;
    this.#evidence ??= proposed.map((one) => evidenceOfChange(this.pairs, one, question, factors));
    return this.#evidence;
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
