import type { RatioGroup } from "../../comparison";
import {
  compareAlternatives,
  factorPlaces,
  narrowedToTested,
  oneFactorPerMode,
  proposedJointly,
  usualAlternatives,
  type DerivedFactor,
  type PoolingSettings,
} from "../../proposals";
import { factorTable, steelPairTable } from "../../tables";
import type { EvidenceColumn, EvidenceRow } from "../comparison/evidence-row";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { Alternatives } from "./alternatives";
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
import {
  comparisonSettings,
  ofOneCode,
  type GroupsOfCode,
  type JudgedGroups,
} from "./judged-groups";
import { FactorsLeaveOut } from "./leave-out-factors";
import { unitOf, type LeftOut } from "./left-out-unit";
import { Proposal } from "./proposal";

/**
 * The factors of groups of FRP bars, by three criteria side by side. Steel bars get none.
 * @example study.compare("aci318-19").by("mode", "bar_material").factors().propose().draft()
 */
export class Factors<K extends EvidenceColumn = EvidenceColumn>
  extends DrawnResult<"criteria" | "series effect", "criteria" | "steel pairs">
  implements Iterable<Factor>
{
  private readonly asked: GroupsOfCode;
  readonly #settings: PoolingSettings;
  #derived: DerivedFactors | null = null;

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
    const { factors } = this.derived;
    if (factors.length === 0) return `No factor: no group of FRP bars by ${this.asked.byWords}.`;
    const found = factors.filter(({ status }) => status === "derived");
    const below = found.filter(({ rounded }) => (rounded ?? 1) < 1);
    const supported = below.filter((one) => one.supported);
    const least = below.reduce<DerivedFactor | null>(
      (low, one) => (low === null || (one.exact ?? 1) < (low.exact ?? 1) ? one : low),
      null,
    );
    const lowest =
      least === null
        ? ""
        : ` The lowest is ${least.rounded!.toFixed(2)} for ${least.label} (${least.criterion}).`;
    return `${count(factors.length, "group")} of FRP bars by ${this.asked.byWords}, ${this.asked.basis}: ${found.length} with a factor, ${below.length} of them below 1.0, which the tests support for ${supported.length}; ${factors.length - found.length} with too few tests or series.${lowest}`;
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
      ? noFactor(steel.label, `${steel.label}: steel bars get no factor.`)
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
    const { tests, code, prediction } = this.asked.pairs;
    const { byMode, factors } = this.derived;
    const outcomes =
      byMode.length === 0
        ? []
        : compareAlternatives(
            tests,
            code,
            usualAlternatives(
              {
                derived: byMode,
                tests,
                present: code,
                deriveOn: deriveOnGroups(this.asked, this.#settings),
              },
              factorPlaces(this.asked.pairs),
            ),
            this.asked.columns.filter((column) => column !== "code"),
            {
              ...this.asked.question,
              level: prediction.level,
              modes: byMode
                .map(({ mode }) => mode)
                .filter((mode) => mode in factorPlaces(this.asked.pairs)),
              factors,
            },
          );
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
    const { byMode, factors } = this.derived;
    const places = factorPlaces(this.asked.pairs);
    const deriveOn = deriveOnGroups(this.asked, this.#settings);
    const proposed = proposedJointly({ derived: byMode, places, code, deriveOn }, (some) =>
      oneFactorPerMode(some, places, tests).map((one) => narrowedToTested(one, some, tests)),
    );
    return new Proposal({
      setting: this.setting,
      code,
      tests,
      proposed,
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
    return [...byMode.map(({ reading }) => reading), ...factors.map(({ reading }) => reading)];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.asked;
    return {
      criteria: {
        title: `Factors for FRP bars by three criteria, by ${byWords}, ${basis}`,
        caption: this.answer,
        make: (text) => factorTable(this.derived.factors, text),
      },
      "steel pairs": {
        title: `Cells in which steel and FRP bars both failed in the mode, ${basis}`,
        caption: `Behind the criterion "as steel". ${this.answer}`,
        make: (text) => steelPairTable(this.derived.factors, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return factorFigures(this.asked, this.derived);
  }

  private get derived(): DerivedFactors {
    this.#derived ??= derivedFactors(this.asked, this.#settings);
    return this.#derived;
  }
}
