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
import { indexTable, methodsTable, strengthReductionTable } from "../../tables";
import { count, fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";
import { loadsNamed, type LoadModelId } from "./loads-named";

/** On what a reliability index rests. Coefficients of variation are dimensionless. */
export interface ReliabilityOptions {
  /** Default 3.5, usual for anchors (common practice, no source). */
  readonly target?: number;
  /** Default "nowak-2003". */
  readonly loads?: LoadModelId;
  /** Scatter of material and fabrication beyond that in the tests; default 0. */
  readonly materialCov?: number;
  readonly fabricationCov?: number;
  /** Scatter of measuring and testing, taken out of that of the ratios; default 0. */
  readonly measurementCov?: number;
  /** Default: the code's own strength reduction. */
  readonly strengthReduction?: number;
}

const SHARES = Array.from({ length: 17 }, (_, k) => (k + 2) / 20);
const METHOD_SAMPLES = 20_000;

/**
 * The reliability index of groups with the strength reduction of the code, and the strength
 * reduction that a target index requires.
 * @example study.compare("aci318-19").by("mode").reliability({ target: 3.5 }).table("strength reduction")
 */
export class Reliability extends DrawnResult<
  "index" | "sensitivity",
  "strength reduction" | "index" | "methods"
> {
  private readonly asked: GroupsOfCode;
  readonly #settings: ReliabilityOfGroupsSettings;
  #found: readonly ReliabilityOfGroup[] | null = null;

  /** @throws RangeError for a number that cannot be used, UnknownNameError for other loads */
  constructor(
    asked: JudgedGroups,
    private readonly options: ReliabilityOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "reliability");
    this.#settings = settingsOf(options);
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
    return this.found.map(({ reading }) => reading);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.asked;
    const notes = [
      `Loads: ${this.loadsTitle}; 1.2D + 1.6L and 1.4D, live load 30 to 70 % of the nominal load.`,
      "Present φ: the largest of the code over the tests of the group, unless stated. First-order reliability, resistance log-normal.",
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
        caption: this.answer,
        notes,
        make: (text) => indexTable(this.found, text),
      },
      methods: {
        title: `Reliability index by three methods at 50 % live load, by ${byWords}, ${basis}`,
        caption: this.answer,
        notes: [`Loads: ${this.loadsTitle}.`],
        make: (text) =>
          methodsTable(
            indexByMethod(this.found, {
              share: 0.5,
              samples: METHOD_SAMPLES,
              seed: this.setting.seed,
            }),
            text,
          ),
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
        title: "Share of the resistance in the scatter at the design point",
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

  private get loadsTitle(): string {
    return (this.#settings.loads ?? loadModel("nowak-2003")).title;
  }

  private get found(): readonly ReliabilityOfGroup[] {
    const { pairs, groups } = this.asked;
    this.#found ??= reliabilityOfGroups(pairs, groups, this.#settings);
    return this.#found;
  }

  private get overAllShares(): readonly {
    readonly label: string;
    readonly phi: number;
    readonly along: readonly ReliabilityAtLoadRatio[];
  }[] {
    return this.found.flatMap(({ label, phi, resistance, loads }) =>
      phi === null || resistance === null
        ? []
        : [{ label, phi, along: reliabilityOverLoadRatio({ resistance, loads }, phi, SHARES) }],
    );
  }
}

function settingsOf(options: ReliabilityOptions): ReliabilityOfGroupsSettings {
  const { target, loads, materialCov, fabricationCov, measurementCov, strengthReduction } = options;
  const cov = (name: string, value: number | undefined): number | undefined => {
    if (value !== undefined && !(value >= 0 && value < 1))
      throw new RangeError(`${name} is ${value}; expected a share from 0 to 1, such as 0.12.`);
    return value;
  };
  if (target !== undefined && !(target > 0 && target <= 8))
    throw new RangeError(`The target index is ${target}; expected a number above 0 and up to 8.`);
  if (strengthReduction !== undefined && !(strengthReduction > 0 && strengthReduction <= 1))
    throw new RangeError(
      `The strength reduction is ${strengthReduction}; expected a number above 0 and up to 1.`,
    );
  const [material, fabrication, specimenCov] = [
    cov("materialCov", materialCov),
    cov("fabricationCov", fabricationCov),
    cov("measurementCov", measurementCov),
  ];
  return {
    ...(target === undefined ? {} : { target }),
    ...(strengthReduction === undefined ? {} : { strengthReduction }),
    ...(loads === undefined ? {} : { loads: loadsNamed(loads) }),
    ...(material === undefined ? {} : { material: { bias: 1, cov: material } }),
    ...(fabrication === undefined ? {} : { fabrication: { bias: 1, cov: fabrication } }),
    ...(specimenCov === undefined ? {} : { specimenCov }),
  };
}
