import { comparisonSettings } from "../../comparison";
import { factorAgainstSize } from "../../figures";
import {
  columnSymbol,
  CONDITION_COLUMNS,
  rulesOfGroups,
  type RulesOfGroup,
  type SimpleRule,
} from "../../proposals";
import { rulesOfGroupsTable } from "../../tables";
import { fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";
import { Proposal } from "./proposal";
import { ruleChange } from "./rule-change";
import type { ProvisionId } from "../results/generated-names";

/** How rules along a variable are made. */
export interface SizeRuleOptions {
  /** Rounded down to this; default 0.05. */
  readonly step?: number;
}

const FORMS = ["constant", "two-step", "linear", "power"] as const;

/** The form of a simple rule. */
export type RuleForm = (typeof FORMS)[number];

/**
 * The factor that groups require along a variable, with simple rules that a code could print.
 * @example
 * study.compare("aci318-19").mode("concrete_edge_breakout").by("bar_material").sizeRule("bar_diameter_mm").table()
 */
export class SizeRules extends DrawnResult<"factor against size", "rules"> {
  private readonly asked: GroupsOfCode;
  #found: readonly RulesOfGroup[] | null = null;

  /** @throws UnknownNameError for a column that no provision reads as a number */
  constructor(
    asked: JudgedGroups,
    private readonly column: string,
    private readonly options: SizeRuleOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "sizeRule");
    const { code } = this.asked.pairs;
    knownName(
      "column that a provision reads",
      column,
      CONDITION_COLUMNS.filter((name) => columnSymbol(name, code) !== null),
    );
    if (options.step !== undefined && !(options.step > 0))
      throw new RangeError(`The step is ${options.step}; expected a number above 0, such as 0.05.`);
  }

  get name(): string {
    return fileName("rules along", this.column, this.asked.name);
  }

  get answer(): string {
    const derived = this.found.filter(({ rules }) => rules.length > 0);
    if (derived.length === 0)
      return this.found.length === 0
        ? `No rule: ${this.asked.rows}`
        : `No rule along ${this.words}. ${this.found.map(({ label, along }) => `${label}: ${along.reading}`).join(" ")}`;
    return derived
      .map(({ label, along, rules: [cheapest] }) => {
        const trend = along.p !== null && along.p < 0.05;
        return `${label}: ${trend ? "a trend" : "no significant trend"} along ${this.words} (p = ${(along.p ?? NaN).toPrecision(2)}, ${along.n} failures at ${along.sizes} values); the ${cheapest!.kind} rule ${cheapest!.formula} gives away least, ${(100 * cheapest!.meanCost).toFixed(1)} % of the permitted capacity on average.`;
      })
      .join(" ");
  }

  /** The rules of each group as the room of proposals makes them, cheapest first. */
  get rulesOfGroups(): readonly RulesOfGroup[] {
    return this.found;
  }

  /**
   * The rules of one form as a proposal, one change a group, for the bars of the group. Without a
   * rule it holds no change and says so.
   * @throws UnknownNameError for a provision or form; RangeError for a provision that judged no test
   *   of the groups
   */
  propose(provision: ProvisionId, form: RuleForm): Proposal {
    const { pairs, setting, question } = this.asked;
    knownName("form", form, FORMS);
    const known = pairs.code.provisions.map(({ id }) => id);
    knownName("provision", provision, known);
    const judged = new Set(
      this.asked.groups.flatMap(({ evidence }) =>
        evidence.map(({ column }) => pairs.prediction.columns[column]?.provision.id),
      ),
    );
    if (judged.size > 0 && !judged.has(provision))
      throw new RangeError(
        `The tests of these groups are not judged by ${provision}; expected ${[...judged].join(" or ")}.`,
      );
    const chosen = this.found.flatMap((group, k) => {
      const rule = group.rules.find(({ kind }) => kind === form);
      return rule ? [{ group, rule, evidence: this.asked.groups[k]!.evidence }] : [];
    });
    return new Proposal({
      setting,
      basis: this.asked.basis,
      code: pairs.code,
      tests: pairs.tests,
      chosen: pairs,
      proposed: chosen.map((one, k) => ruleChange(provision, one, pairs, k)),
      settings: comparisonSettings(pairs),
      question,
      factors: [],
      step: this.options.step ?? 0.05,
      nothing: this.answer,
    });
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    return this.found.flatMap(({ label, along, rules }) => [
      `${label}: ${along.reading}`,
      ...along.warnings.map((words) => `${label}: ${words}.`),
      ...rules.map(({ reading }) => `${label}, ${reading}`),
    ]);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const read = columnSymbol(this.column, this.asked.pairs.code)!;
    return {
      rules: {
        title: `Simple rules along ${this.words}, by ${this.asked.byWords}, ${this.asked.basis}`,
        caption: this.answer,
        notes: [`${read.symbol} in ${read.unit}; rules apply within the tested range only.`],
        make: (text) => rulesOfGroupsTable(this.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    const drawn = this.found.find(({ rules }) => rules.length > 0) ?? this.found[0];
    const cheapest: SimpleRule | undefined = drawn?.rules[0];
    const size = columnSymbol(this.column, this.asked.pairs.code)!.size;
    return {
      "factor against size": {
        title: `Factor required along ${this.words}${drawn ? `, ${drawn.label}` : ""}`,
        subtitle: this.asked.basis,
        caption: `Circles: estimated 5 % fractile of each size separately, as tested (series effect ignored because a size has too few series), with one-sided bounds. Line: the rule for all sizes, from the tolerance band. ${this.answer}`,
        make: (text) =>
          factorAgainstSize({
            ...text,
            factors: (drawn?.sizes ?? []).map(({ x, n, fractile, lower, upper }) => ({
              size: x,
              factor: fractile ?? NaN,
              lower: lower ?? NaN,
              upper: upper ?? NaN,
              n,
            })),
            rule: {
              label: cheapest ? `${cheapest.kind} rule` : "no rule",
              x: (drawn?.along.x ?? []).map((x) => x * size),
              y: cheapest ? (drawn?.along.x ?? []).map((x) => cheapest.at(x)) : [],
            },
          }),
      },
    };
  }

  private get words(): string {
    return this.column.replace(/_(mm2?|MPa|GPa)$/, "").replaceAll("_", " ");
  }

  private get found(): readonly RulesOfGroup[] {
    const { pairs, groups, question, setting } = this.asked;
    const { fractile, confidence } = question;
    this.#found ??= rulesOfGroups(pairs, groups, this.column, {
      ...this.options,
      ...(fractile === undefined ? {} : { fractile }),
      ...(confidence === undefined ? {} : { confidence }),
      seed: setting.seed,
    });
    return this.#found;
  }
}
