import { comparisonSettings } from "../../comparison";
import type { RatioGroup } from "../../comparison";
import {
  factorPlaces,
  narrowedToTested,
  oneFactorPerMode,
  proposedJointly,
  type DeriveOn,
  type DerivedFactor,
  type PoolingSettings,
  type Proposal as ProposedFactor,
} from "../../proposals";
import { factorTable, modeFactorTable, steelPairTable } from "../../tables";
import type { EvidenceColumn, EvidenceRow } from "../comparison/evidence-row";
import { fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { alternativeOutcomes, Alternatives } from "./alternatives";
import { Choices } from "./choices";
import {
  deriveOnGroups,
  derivedFactors,
  factorSettings,
  type DerivedFactors,
  type FactorOptions,
} from "./derived-factors";
import { factorOf, noFactor, type Factor } from "./factor";
import { factorFigures } from "./factor-figures";
import { factorsAnswer } from "./factors-answer";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";
import { modeFactors, type ModeFactor } from "./mode-factors";
import { FactorsLeaveOut } from "./leave-out-factors";
import { unitOf, type LeftOut } from "./left-out-unit";
import { Proposal } from "./proposal";

/**
 * The factors of groups of FRP bars, by three criteria side by side. Steel bars get none.
 * @example study.compare("aci318-19").by("mode", "bar_material").factors().propose().draft()
 */
export class Factors<K extends EvidenceColumn = EvidenceColumn>
  extends DrawnResult<"criteria" | "series effect", "criteria" | "steel pairs" | "changes">
  implements Iterable<Factor>
{
  private readonly asked: GroupsOfCode;
  readonly #settings: PoolingSettings;
  #derived: DerivedFactors | null = null;
  #proposed: readonly ProposedFactor[] | null = null;

  /** @throws RangeError for a comparison with several codes; UnknownNameError for an option */
  constructor(
    asked: JudgedGroups,
    private readonly options: FactorOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "factors");
    this.#settings = factorSettings(this.asked, options);
  }

  get name(): string {
    return fileName("factors", this.asked.name, this.options.criterion ?? "");
  }

  get length(): number {
    return this.derived.factors.length;
  }

  /** The factors as the room of proposals derives them, in the order of the table. */
  get derivedFactors(): readonly DerivedFactor[] {
    return this.derived.factors;
  }

  get answer(): string {
    return factorsAnswer(this.asked, this.derived.factors, this.modeFactors);
  }

  *[Symbol.iterator](): Iterator<Factor> {
    for (const one of this.derived.factors) yield factorOf(one);
  }

  /**
   * The factor of one group; of a group without tests, or of steel, one without numbers that says
   * why.
   * @throws RangeError where several groups have these values, and UnknownNameError for a column
   *   that is no grouping column
   */
  factor(key: Partial<Pick<EvidenceRow, K>>): Factor {
    const wanted = Object.entries(key);
    for (const [column] of wanted) knownName("grouping column", column, this.asked.columns);
    const fits = ({ by }: Pick<RatioGroup, "by">): boolean =>
      wanted.every(([column, value]) => by[column] === value);
    const found = this.derived.factors.filter(fits);
    if (found.length > 1)
      throw new RangeError(
        `${found.length} groups have ${JSON.stringify(key)}: ${found.map(({ label }) => label).join("; ")}. Expected values of ${this.asked.columns.join(", ")} that name one.`,
      );
    if (found[0]) return factorOf(found[0]);
    const steel = this.asked.groups.find(fits);
    return steel
      ? noFactor(steel.label, `${steel.label}: no factor is derived for steel bars.`)
      : noFactor(wanted.map(([, value]) => String(value)).join(", "), "No test has these values.");
  }

  /** The factors without each study, series, laboratory or bar size in turn. */
  leaveOut(unit: LeftOut): FactorsLeaveOut {
    const part = unitOf(unit);
    const { derivation, groups, factors } = this.derived;
    const found = factors.flatMap(({ label, criterion, exact, rounded }, k) =>
      rounded === null
        ? []
        : [
            {
              label,
              exact,
              proposed: rounded,
              leftOut: derivation.leaveOut(groups[k]!, criterion, part, rounded),
            },
          ],
    );
    return new FactorsLeaveOut({
      setting: this.setting,
      name: this.name,
      unit: part,
      basis: this.asked.basis,
      found,
      nothing:
        found.length === 0
          ? `Nothing to leave out: ${this.answer}`
          : `Nothing to leave out: no group has failures of two or more values of ${unit}.`,
    });
  }

  /** The factors under every combination of choices that a reasonable analyst makes. */
  choices(): Choices {
    const { derivation, groups, factors } = this.derived;
    const found = factors.flatMap(({ criterion, rounded }, k) =>
      rounded === null || criterion === "reliability"
        ? []
        : [derivation.choices(groups[k]!, criterion, rounded)],
    );
    return new Choices(this.setting, this.name, this.asked.basis, found);
  }

  /** The usual alternatives by safety and economy, from no change to rules along the bar size. */
  alternatives(): Alternatives {
    const { derived, places } = this;
    const outcomes = alternativeOutcomes(this.asked, derived, places, this.deriveOn);
    return new Alternatives(this.setting, this.name, this.asked.basis, outcomes);
  }

  /**
   * The proposal of one factor a mode: that of the class that needs the least, or the pooled one
   * where pooling was asked for and no significant difference was found; pryout gets what it
   * requires beside the factor on bond. Without a factor below 1,
   * or groups without "mode", it holds no change and says so.
   */
  propose(): Proposal {
    const { code, tests } = this.asked.pairs;
    const { factors } = this.derived;
    return new Proposal({
      setting: this.setting,
      basis: this.asked.basis,
      code,
      tests,
      proposed: this.proposed,
      chosen: this.asked.pairs,
      settings: comparisonSettings(this.asked.pairs),
      question: this.asked.question,
      factors,
      step: this.options.step ?? 0.05,
      nothing: this.asked.columns.includes("mode")
        ? `No mode has a factor below 1.0 for all its classes. ${this.answer}`
        : `Groups by ${this.asked.byWords} name no provision; expected by("mode", ...).`,
    });
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    const { byMode, factors } = this.derived;
    return [
      ...this.modeFactors.map(({ reason }) => reason),
      ...byMode.map(({ reading }) => reading),
      ...factors.map(({ reading }) => reading),
    ];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.asked;
    return {
      criteria: {
        title: `Factors for FRP bars by three criteria, by ${byWords}, ${basis}`,
        caption: this.answer,
        make: (text) => factorTable(this.derived.factors, text),
      },
      changes: {
        title: `Factors proposed as changes, one per mode, ${basis}`,
        make: (text) => modeFactorTable(this.modeFactors, text),
      },
      "steel pairs": {
        title: `Cells in which steel and FRP bars both failed in the mode, ${basis}`,
        make: (text) => steelPairTable(this.derived.factors, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return factorFigures(this.asked, this.derived);
  }

  /** Which factors become changes. */
  private get modeFactors(): readonly ModeFactor[] {
    return modeFactors(this.derived.byMode, this.places, this.proposed);
  }

  private get places(): ReturnType<typeof factorPlaces> {
    return factorPlaces(this.asked.pairs);
  }

  private get deriveOn(): DeriveOn {
    return deriveOnGroups(this.asked, this.#settings);
  }

  /** One change a mode, derived in the order in which provisions use each other's results. */
  private get proposed(): readonly ProposedFactor[] {
    const { places, deriveOn } = this;
    const { code, tests } = this.asked.pairs;
    this.#proposed ??= proposedJointly(
      { derived: this.derived.byMode, places, code, deriveOn },
      (some) =>
        oneFactorPerMode(some, places, tests).map((one) => narrowedToTested(one, some, tests)),
    );
    return this.#proposed;
  }

  private get derived(): DerivedFactors {
    this.#derived ??= derivedFactors(this.asked, this.#settings);
    return this.#derived;
  }
}
