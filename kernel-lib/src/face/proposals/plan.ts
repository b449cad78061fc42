import { BAR_MATERIALS, type BarMaterial } from "../../dataset";
import { testsNeeded, testsNeededOf } from "../../figures";
import { planTests, type PlannedTests } from "../../proposals";
import { testPlanTable } from "../../tables";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import {
  everyMode,
  isSteel,
  ofOneCode,
  type GroupsOfCode,
  type JudgedGroups,
} from "./judged-groups";

/** How the next campaign is planned. */
export interface PlanOptions {
  /** Wanted probability that the verdict is then right; default 0.8. */
  readonly probability?: number;
  /** Tests in one series; default 3. */
  readonly perSeries?: number;
  /** Materials planned for; default those of the groups other than steel. */
  readonly materials?: readonly BarMaterial[];
  /** Wanted probability that the specimen fails in the mode; default 0.8. */
  readonly governs?: number;
  /** Simulated campaigns for each number of tests; default 200, or 60 with lower bounds. */
  readonly simulations?: number;
  /** The largest campaign looked at for one cell; default 60 failures. */
  readonly most?: number;
}

/**
 * The next campaign: for each mode, material and bar size, whatever else the groups are divided by,
 * how many further failures settle the verdict in general, and the specimen that brings the mode
 * about. Simulated when first asked for, by the seed of the study.
 * @example study.compare("aci318-19").mode("bond").by("mode", "bar_material").plan({ simulations: 20 }).answer
 */
export class Plan extends DrawnResult<"tests needed", "plan" | "settled"> {
  private readonly asked: GroupsOfCode;
  #planned: readonly PlannedTests[] | null = null;

  /** @throws UnknownNameError for another material; RangeError for a number that cannot be used */
  constructor(
    asked: JudgedGroups,
    private readonly options: PlanOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "plan");
    for (const material of options.materials ?? [])
      knownName("bar material", material, BAR_MATERIALS);
    for (const name of ["probability", "governs"] as const) {
      const value = options[name] ?? 0.8;
      if (!(value > 0 && value < 1))
        throw new RangeError(
          `${name} is ${value}; expected a fraction between 0 and 1, such as 0.8.`,
        );
    }
    for (const name of ["perSeries", "simulations", "most"] as const) {
      const value = options[name] ?? 1;
      if (!(Number.isInteger(value) && value >= 1))
        throw new RangeError(`${name} is ${value}; expected a whole number of at least 1.`);
    }
  }

  get name(): string {
    return fileName("test plan", this.asked.name);
  }

  /** The plan as the room of proposals makes it. */
  get planned(): readonly PlannedTests[] {
    this.#planned ??= planned(this.asked, this.options);
    return this.#planned;
  }

  get answer(): string {
    const of = (finding: PlannedTests["finding"]): readonly PlannedTests[] =>
      this.planned.filter((one) => one.finding === finding);
    if (this.planned.length === 0)
      return `No plan: no group of the materials planned for. ${this.asked.rows}`;
    const needed = of("tests needed");
    const further = needed.reduce((sum, { settle }) => sum + (settle?.further ?? 0), 0);
    return `${count(this.planned.length, "cell")} of mode, material and size: ${of("settled").length} settled, ${needed.length} by ${count(further, "further failure")} in all (right verdict with a probability of ${100 * (this.options.probability ?? 0.8)} % each), ${of("cannot be settled").length} that cannot be settled, ${of("no model").length} with too few series to plan from.`;
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    return [this.answer, ...this.open.map(({ reading }) => reading)];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { basis } = this.asked;
    return {
      plan: {
        title: `Test plan: undecided cells, ${basis}`,
        caption: this.answer,
        make: (text) => testPlanTable(this.open, text),
      },
      settled: {
        title: `Test plan: decided cells, ${basis}`,
        caption: this.answer,
        make: (text) =>
          testPlanTable(
            this.planned.filter(({ finding }) => finding === "settled"),
            text,
          ),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      "tests needed": {
        title: "Further failures required for a verdict",
        subtitle: this.asked.basis,
        caption: `Open: no campaign considered gives a verdict, or too few series failed to plan. ${this.answer}`,
        make: (text) =>
          testsNeeded({
            ...text,
            ...testsNeededOf(this.planned),
            rowTitle: "Bar material and size",
            columnTitle: "Failure mode",
          }),
      },
    };
  }

  private get open(): readonly PlannedTests[] {
    return this.planned.filter(({ finding }) => finding !== "settled");
  }
}

function planned(
  { pairs, groups, question, setting }: GroupsOfCode,
  options: PlanOptions,
): readonly PlannedTests[] {
  const evidence = groups.flatMap((group) => group.evidence);
  const materials = options.materials ?? [
    ...new Set(
      evidence
        .filter(({ row }) => !isSteel(pairs, row))
        .map(({ row }) => pairs.tests.text(row, "bar_material") ?? ""),
    ),
  ];
  if (materials.length === 0 || evidence.length === 0) return [];
  return planTests(pairs, {
    ...question,
    materials,
    modes: [...new Set(evidence.map(({ mode }) => mode))],
    wanted: options.probability ?? 0.8,
    perSeries: options.perSeries ?? 3,
    seed: setting.seed,
    errorsFrom: everyMode(pairs),
    ...(options.governs === undefined ? {} : { governs: options.governs }),
    ...(options.simulations === undefined ? {} : { simulations: options.simulations }),
    ...(options.most === undefined ? {} : { most: options.most }),
  });
}
