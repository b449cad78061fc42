import { ratioAgainstVariable, variableTestsOf } from "../../figures";
import {
  calibrateGroups,
  TREND_VARIABLES,
  variationOfProduct,
  type Calibration as Calibrated,
} from "../../proposals";
import { capitalised } from "../../comparison";
import { calibrationStepsTable, calibrationTable } from "../../tables";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { covOfMode, share, type CovByMode } from "./reliability-options";
import { ofOneCode, type GroupsOfCode, type JudgedGroups } from "./judged-groups";

/** How groups are calibrated to EN 1990 Annex D.8. */
export interface CalibrateOptions {
  /** Default "left out", as the annex has it; "used" by maximum likelihood is an extension. */
  readonly lowerBounds?: "used" | "left out";
  /**
   * Coefficient of variation of material and geometry in all members built, from prior knowledge;
   * default 0: only the scatter in the tests.
   */
  readonly materialCov?: CovByMode;
  readonly fabricationCov?: number;
}

/**
 * Groups calibrated to EN 1990 Annex D.8: correction, scatter and factors on the nominal
 * resistance.
 * @example study.compare("en1992-4-2018").by("mode").calibrate({ materialCov: 0.06 }).table("factors")
 */
export class Calibration extends DrawnResult<"trends", "factors" | "steps"> {
  private readonly asked: GroupsOfCode;
  readonly #materialOf: ReturnType<typeof covOfMode>;
  #found: readonly Calibrated[] | null = null;

  /** @throws UnknownNameError for another use of lower bounds; RangeError for a negative scatter */
  constructor(
    asked: JudgedGroups,
    private readonly options: CalibrateOptions,
  ) {
    super();
    this.asked = ofOneCode(asked, "calibrate");
    knownName("lowerBounds", options.lowerBounds ?? "left out", ["used", "left out"]);
    this.#materialOf = covOfMode("materialCov", options.materialCov ?? 0);
    share("fabricationCov", options.fabricationCov);
  }

  get name(): string {
    return fileName("annex d8", this.asked.name, this.options.lowerBounds ?? "");
  }

  get answer(): string {
    const derived = this.found.filter(({ status }) => status === "derived");
    if (derived.length === 0) return `No calibration: ${this.found[0]?.reading ?? this.asked.rows}`;
    const drifting = derived.filter(({ trends }) => trends.some(({ trend }) => trend === "trend"));
    const designs = derived.flatMap(({ designFactor, label }) =>
      designFactor === null ? [] : [{ designFactor, label }],
    );
    const least = designs.reduce<(typeof designs)[number] | null>(
      (low, one) => (low === null || one.designFactor < low.designFactor ? one : low),
      null,
    );
    return `${derived.length} of ${count(this.found.length, "group")} by ${this.asked.byWords} calibrated to EN 1990 Annex D.8${least === null ? "" : `; the lowest design factor r_d / r_n is ${least.designFactor.toFixed(2)} for ${least.label}`}; the correction has a trend in ${drifting.length}${drifting.length === 0 ? "" : ` (${drifting.map(({ label }) => label).join("; ")})`}.`;
  }

  protected get setting(): Setting {
    return this.asked.setting;
  }

  protected sentences(): readonly string[] {
    const shared = this.sharedAssumptions;
    return this.found.flatMap(({ label, reading, warnings, assumptions }) => [
      capitalised(variableWords(reading)),
      ...[
        ...warnings,
        ...assumptions.filter((one) => !shared.includes(one)).map((one) => `assumed: ${one}`),
      ].map((one) => `${capitalised(label)}: ${variableWords(one).replace(/\.$/, "")}.`),
    ]);
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, basis } = this.asked;
    const notes = this.sharedAssumptions.map((one) => `Assumed: ${one}.`);
    return {
      factors: {
        title: `Calibration to EN 1990 Annex D.8 by ${byWords}, lower bounds ${this.options.lowerBounds ?? "left out"}, ${basis}`,
        caption: this.answer,
        notes,
        make: (text) => calibrationTable(this.found, text),
      },
      steps: {
        title: `Calibration to EN 1990 Annex D.8, line by line, by ${byWords}, ${basis}`,
        notes,
        make: (text) => calibrationStepsTable(this.found, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      trends: {
        title: "Test-to-predicted ratio against the variables of the trend check",
        subtitle: this.asked.basis,
        caption: `Open triangles: lower bounds. Option x selects the variable: ${TREND_VARIABLES.join(", ")}. ${this.answer}`,
        make: (text, { x = TREND_VARIABLES[0] }) => {
          const variable = knownName<string>("variable", x, TREND_VARIABLES);
          const [, title = variable, unit = ""] = /^(.*)_(\w+)$/.exec(variable) ?? [];
          return ratioAgainstVariable({
            ...text,
            fits: [],
            variable: { title: title.replaceAll("_", " "), unit },
            tests: variableTestsOf(
              this.asked.pairs,
              variable,
              "bar_material",
              this.asked.groups.flatMap(({ evidence }) => evidence),
            ),
          });
        },
      },
    };
  }

  /** Those of every group; the others are findings of their group. */
  private get sharedAssumptions(): readonly string[] {
    const derived = this.found.filter(({ status }) => status === "derived");
    return (derived[0]?.assumptions ?? []).filter((one) =>
      derived.every(({ assumptions }) => assumptions.includes(one)),
    );
  }

  private get found(): readonly Calibrated[] {
    const { lowerBounds, fabricationCov = 0 } = this.options;
    const { pairs, groups } = this.asked;
    this.#found ??= groups.flatMap((group) =>
      calibrateGroups(pairs, [group], {
        budget: variationOfProduct(
          [
            { name: "material", cov: this.#materialOf(group) },
            { name: "fabrication", cov: fabricationCov },
          ].filter(({ cov }) => cov > 0),
        ),
        treatmentOfLowerBounds: lowerBounds === "used" ? "used by likelihood" : "left out",
      }),
    );
    return this.#found;
  }
}

/** Columns in words, such as "bar diameter" for bar_diameter_mm. */
function variableWords(text: string): string {
  return TREND_VARIABLES.reduce(
    (words, column) =>
      words.replaceAll(column, column.replace(/_(mm|MPa)$/, "").replaceAll("_", " ")),
    text,
  );
}
