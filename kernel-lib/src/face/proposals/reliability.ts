import { reliabilityAgainstLoadRatio, sensitivityAgainstLoadRatio } from "../../figures";
import {
  indexByMethod,
  loadModel,
  reliabilityOfGroups,
  reliabilityOverLoadRatio,
  type ReliabilityOfGroup,
  type ReliabilityAtLoadRatio,
  type ReliabilityOfGroupsSettings,
} from "../../proposals";
import {
  indexTable,
  methodsTable,
  sensitivityTable,
  strengthReductionTable,
  testBasedTable,
} from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";
import { reliabilitySettings, type ReliabilityOptions } from "./reliability-options";

export type { ReliabilityOptions };

/** Live-load shares of the figures; at a ninth 1.4D gives way to 1.2D + 1.6L. */
const SHARES = [...Array.from({ length: 46 }, (_, k) => k / 50), 1 / 9].sort((a, b) => a - b);
const METHOD_SAMPLES = 100_000;
const CRUDE_SAMPLES = 1_000_000;

interface OverShares {
  readonly label: string;
  readonly phi: number;
  readonly along: readonly ReliabilityAtLoadRatio[];
}

/**
 * The reliability index of groups with the strength reduction of the code, and the strength
 * reduction that a target index requires.
 * @example study.compare("aci318-19").by("mode").reliability({ target: 3.5 }).table("strength reduction")
 */
export class Reliability extends DrawnResult<
  "index" | "sensitivity",
  "strength reduction" | "index" | "sensitivity" | "methods" | "sample size"
> {
  private readonly asked: GroupsOfCode;
  readonly #settings: ReliabilityOfGroupsSettings;
  #found: readonly ReliabilityOfGroup[] | null = null;
  #along: readonly OverShares[] | null = null;

  /** @throws RangeError for a number that cannot be used, UnknownNameError for other loads */
  constructor(
    asked: JudgedGroups,
    private readonly options: ReliabilityOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "reliability");
    this.#settings = reliabilitySettings(options);
  }

  get name(): string {
    return fileName("reliability", this.asked.name);
  }

  get answer(): string {
    const { found, target } = this;
    const judged = found.filter(({ least }) => least !== null);
    if (judged.length === 0)
      return `No reliability index: ${found.length === 0 ? this.asked.rows : "no group has 3 failures and a strength reduction in the code."}`;
    const below = judged.filter(({ least }) => least!.reliability.index < target);
    const low = judged.reduce((a, b) =>
      b.least!.reliability.index < a.least!.reliability.index ? b : a,
    );
    return `${below.length} of ${count(judged.length, "group")} by ${this.asked.byWords} ${below.length === 1 ? "has" : "have"} a least index below the target of ${target}${below.length === 0 ? "" : ` (${below.map(({ label }) => label).join("; ")})`}; the lowest is ${low.least!.reliability.index.toFixed(2)} for ${low.label}, with a strength reduction of ${low.phi!.toFixed(2)}.`;
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    const along = new Map(this.overAllShares.map((one) => [one.label, one]));
    return this.found.map(({ label, reading }) => {
      const one = along.get(label);
      return one === undefined ? reading : `${reading} ${overSharesWords(one, this.target)}`;
    });
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.asked;
    const notes = [
      `Loads: ${this.loadsTitle}; 1.2D + 1.6L and 1.4D, live load 30 to 70 % of the nominal load.`,
      "Present φ: the largest value of the code for the tests of the group, unless stated. First-order reliability, lognormal resistance.",
      this.scatterNote,
    ];
    return {
      "strength reduction": {
        title: `Strength reduction for a reliability index of ${this.target}, by ${byWords}, ${basis}`,
        caption: this.answer,
        notes,
        make: (text) => strengthReductionTable(this.found, text),
      },
      index: {
        title: `Reliability index by load ratio, by ${byWords}, ${basis}`,
        notes,
        make: (text) => indexTable(this.found, text),
      },
      sensitivity: {
        title: `Sensitivity factors at 50 % live load, by ${byWords}, ${basis}`,
        notes,
        make: (text) => sensitivityTable(this.found, 0.5, text),
      },
      methods: {
        title: `Reliability index by four methods at 50 % live load, by ${byWords}, ${basis}`,
        notes: [`Loads: ${this.loadsTitle}.`],
        make: (text) =>
          methodsTable(
            indexByMethod(this.found, {
              share: 0.5,
              samples: METHOD_SAMPLES,
              crude: CRUDE_SAMPLES,
              seed: this.setting.seed,
            }),
            text,
          ),
      },
      "sample size": {
        title: `Test-based strength reduction for an index of ${this.target}, by ${byWords}, ${basis}`,
        notes: [
          "Equation of AISI S100, K2.1, from memory: calibration coefficient 1.52, V_Q = 0.21; failures only, series effect ignored.",
        ],
        make: (text) => testBasedTable(this.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    const caption = `Loads: ${this.loadsTitle}. First order. ${this.answer}`;
    const xTitle = "Live load / (dead + live load) (–)";
    return {
      index: {
        title: "Reliability index with the present strength reduction",
        subtitle: `${this.asked.basis}, 1.2D + 1.6L and 1.4D`,
        caption,
        make: (text) =>
          reliabilityAgainstLoadRatio({
            ...text,
            target: this.target,
            xTitle,
            curves: this.overAllShares.map(({ label, phi, along }) => ({
              label: `${label}, φ = ${phi.toFixed(2)}`,
              x: along.map(({ variableShare }) => variableShare),
              y: along.map(({ reliability }) => reliability.index),
            })),
          }),
      },
      sensitivity: {
        title: "Contribution of the resistance to the scatter at the design point",
        subtitle: this.asked.basis,
        caption,
        make: (text) =>
          sensitivityAgainstLoadRatio({
            ...text,
            xTitle,
            curves: this.overAllShares.map(({ label, along }) => ({
              label,
              x: along.map(({ variableShare }) => variableShare),
              y: along.map(
                ({ reliability }) =>
                  reliability.sensitivity.find(({ name }) => name === "resistance")?.share ?? NaN,
              ),
            })),
          }),
      },
    };
  }

  private get target(): number {
    return this.options.target ?? 3.5;
  }

  private get scatterNote(): string {
    return this.options.scatterOf === "all tests"
      ? "R / R_n and V_P: all tests of the group together, lognormal by maximum likelihood, lower bounds as censored."
      : "R / R_n and V_P: a further test of a further series in the deciding cell.";
  }

  private get loadsTitle(): string {
    return (this.#settings.loads ?? loadModel("nowak-2003")).title;
  }

  private get found(): readonly ReliabilityOfGroup[] {
    const { pairs, groups } = this.asked;
    this.#found ??= reliabilityOfGroups(pairs, groups, this.#settings);
    return this.#found;
  }

  private get overAllShares(): readonly OverShares[] {
    this.#along ??= this.found.flatMap(({ label, phi, resistance, loads }) =>
      phi === null || resistance === null
        ? []
        : [{ label, phi, along: reliabilityOverLoadRatio({ resistance, loads }, phi, SHARES) }],
    );
    return this.#along;
  }
}

/** The least index over all load ratios, and where the target is not reached. */
function overSharesWords({ along }: OverShares, target: number): string {
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  const least = along.reduce((low, one) =>
    one.reliability.index < low.reliability.index ? one : low,
  );
  const short = along.map(({ reliability }) => reliability.index < target);
  // Ranges of shares that follow each other, as their first and last.
  const first = along.filter((_, k) => short[k] && !short[k - 1]);
  const last = along.filter((_, k) => short[k] && !short[k + 1]);
  const where =
    first.length === 0
      ? `the target of ${target} is reached at all of them`
      : `below ${target} from ${first.map(({ variableShare }, k) => `${percent(variableShare)} to ${percent(last[k]!.variableShare)}`).join(" and from ")}`;
  return `Over live-load fractions of ${percent(along[0]!.variableShare)} to ${percent(along.at(-1)!.variableShare)} the minimum index is ${least.reliability.index.toFixed(2)} at ${percent(least.variableShare)} (${least.combination} governs); ${where}.`;
}
