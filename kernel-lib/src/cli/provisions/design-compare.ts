import { Option, type Command } from "commander";
import {
  CALCULATION_CAUTION,
  compareDesigns,
  designedBar,
  designFindings,
  environmentalFactorOfBar,
  type CodeDefinition,
  type DesignComparison,
} from "../../provisions";
import { brokenLine } from "../../formula";
import { designCapacityTable, designEmbedmentTable, designFactorTable } from "../../tables";
import { answering } from "../use/answering";
import { absent, helpNotes } from "../use/help";
import {
  codeSettingOption,
  codesNamed,
  codesOption,
  formatOption,
  settingsFor,
} from "../use/option-declarations";
import { terminalWidth } from "../use/terminal-width";
import { InvalidInput, invalidOption, oneOf, positiveNumber, share } from "../use/invalid-input";
import {
  designedBarNamed,
  designedBarOptions,
  type DesignedBarOptions,
} from "./designed-bar-options";
import { TABLE_FORMATS, tableText } from "./table-format";
import { say } from "../use/printing";

const FORMATS = [...TABLE_FORMATS, "json"] as const;
const EXPOSURES = ["interior", "exterior"] as const;

interface DesignOptions extends DesignedBarOptions {
  readonly codes: string;
  readonly from?: string;
  readonly to?: string;
  readonly points: string;
  readonly at?: string;
  readonly load?: string;
  readonly exposure: string;
  readonly bondReduction: string;
  readonly option: readonly string[];
  readonly format: string;
}

/**
 * `code-comparison design-compare`: one bar designed by a code for anchors and by a guide for FRP
 * bars. It reads no tests, so it has no `--where`.
 */
export function registerDesignCompareCommand(program: Command): void {
  const command = program
    .command("design-compare")
    .description(
      "compare the tension design of one bonded bar by the steel-anchorage code and by an FRP guide: capacities along the embedment, crossings, embedment required, and the assumption that makes the difference",
    )
    .addOption(
      codesOption(
        "the code for anchors, then the guide, separated by a comma; `provisions` lists them",
      ).default("aci318-19,aci440.1r-15"),
    );
  designedBarOptions(command)
    .addOption(absent(new Option("--from <mm>", "minimum embedment"), "4 bar diameters"))
    .addOption(absent(new Option("--to <mm>", "maximum embedment"), "30 bar diameters"))
    .option("--points <n>", "embedments in the table", "14")
    .addOption(
      absent(
        new Option("--at <mm>", "embedment at which the ratio is split into factors"),
        "10 bar diameters",
      ),
    )
    .addOption(
      absent(
        new Option("--load <kN>", "design load; the embedment each code requires is given"),
        "no load",
      ),
    )
    .option(
      "--exposure <exposure>",
      "exposure for the environmental factor of the guide: interior or exterior",
      "exterior",
    )
    .option(
      "--bond-reduction <factor>",
      "strength reduction for bond where a code states none (1: no reduction)",
      "1",
    )
    .addOption(codeSettingOption())
    .addOption(formatOption(FORMATS))
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "design-compare --bar gfrp --size M16 --concrete 30 --edge 150 --at 160 --load 40",
        ],
        notes: [
          "The defaults are an invented case: a glass bar bonded into an old breakwater wall.",
        ],
        exit: "0 compared",
      }),
    )
    .action(answering(runDesignCompare));
}

async function runDesignCompare(options: DesignOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const codes = twoCodes(options.codes);
  const bar = designedBarNamed(options);
  const { diameter = NaN } = bar;
  const length = (name: "from" | "to" | "at", diameters: number): number =>
    options[name] === undefined
      ? Math.round(diameters * diameter)
      : positiveNumber(name, options[name]);
  const [from, to, at] = [length("from", 4), length("to", 30), length("at", 10)];
  if (from >= to)
    throw new InvalidInput(`--from ${String(from)} is not below --to ${String(to)}. Use a range.`);
  const points = positiveNumber("points", options.points);
  if (!Number.isInteger(points) || points < 2 || points > 500)
    throw invalidOption("points", options.points, "a whole number from 2 to 500");
  const stated = Object.assign(
    {},
    ...settingsFor(codes, "design", options.option, {}).map((each) => each.options),
  ) as Record<string, number>;
  const exposure = oneOf("exposure", options.exposure, EXPOSURES);
  const C_E = environmentalFactorOfBar(codes[1].id, options.bar, exposure);
  const bondReduction =
    options.bondReduction === "1" ? 1 : share("bond-reduction", options.bondReduction);
  const comparison = compared(codes, () =>
    compareDesigns(codes, designedBar(bar), 0, {
      embedments: Array.from({ length: points }, (_, k) => from + ((to - from) * k) / (points - 1)),
      at,
      options: { ...(C_E === undefined ? {} : { C_E }), ...stated },
      unstatedReduction: { bond: bondReduction },
      ...(options.load === undefined
        ? {}
        : { load_N: 1000 * positiveNumber("load", options.load) }),
    }),
  );
  say(
    format === "json" ? JSON.stringify(asJson(comparison), null, 2) : written(comparison, format),
  );
  return 0;
}

function twoCodes(words: string): readonly [CodeDefinition, CodeDefinition] {
  const [first, second, ...more] = codesNamed(words);
  if (!first || !second || more.length > 0)
    throw invalidOption("codes", words, "two codes, such as aci318-19,aci440.1r-15");
  return [first, second];
}

/** A code that does not cover the bar is the user's choice, not our error. */
function compared(
  codes: readonly [CodeDefinition, CodeDefinition],
  make: () => DesignComparison,
): DesignComparison {
  try {
    return make();
  } catch (error) {
    if (error instanceof RangeError)
      throw new InvalidInput(`${error.message} (--codes ${codes.map(({ id }) => id).join(",")})`);
    throw error;
  }
}

function written(comparison: DesignComparison, format: string): string {
  const [first, second] = comparison.families.map(({ code }) => code.id);
  const capacities = designCapacityTable(comparison, {
    id: "design-capacities",
    title: `Tension capacity along the embedment, ${first ?? ""} and ${second ?? ""}`,
  });
  const needed = designEmbedmentTable(comparison, {
    id: "design-embedments",
    title: "Embedment each code requires",
  });
  const factors = designFactorTable(comparison, {
    id: "design-factors",
    title: `Why the design capacities differ at ${String(comparison.at)} mm`,
    notes: [CALCULATION_CAUTION],
  });
  if (format === "csv")
    return [capacities, needed, factors].map((table) => tableText(table, format)).join("\n\n");
  const findings = designFindings(comparison);
  const said =
    format === "html"
      ? findings.map((one) => `<p>${one.replaceAll("<", "&lt;")}</p>`)
      : format === "markdown"
        ? findings
        : findings.map((one) => brokenLine(one, terminalWidth(), 0));
  return [...said, ...[factors, needed, capacities].map((table) => tableText(table, format))].join(
    "\n\n",
  );
}

function asJson({ at, ratio, factors, crossings, families, load_N }: DesignComparison): object {
  return {
    at_mm: at,
    ratio,
    factors: factors.map(({ id, label, byFirst, bySecond, factor, first, last }) => ({
      id,
      label,
      by_first: byFirst,
      by_second: bySecond,
      factor,
      changed_first: first,
      changed_last: last,
    })),
    crossings_mm: {
      nominal: crossings.nominal.map(({ embedment }) => embedment),
      design: crossings.design.map(({ embedment }) => embedment),
    },
    ...(load_N === undefined ? {} : { load_kN: load_N / 1000 }),
    codes: families.map(
      ({ code, points, developsBar, carriesLoad, unjudged, withoutReduction }) => ({
        code: code.id,
        develops_bar_mm: developsBar,
        ...(carriesLoad === undefined ? {} : { carries_load_mm: carriesLoad }),
        not_calculated: unjudged,
        no_reduction_stated: withoutReduction,
        points: points.map(({ embedment, nominal, design, outside }) => ({
          embedment_mm: embedment,
          nominal_kN: kN(nominal.capacity),
          nominal_mode: nominal.mode,
          design_kN: kN(design.capacity),
          design_mode: design.mode,
          outside,
        })),
      }),
    ),
  };
}

const kN = (newtons: number): number | null => (Number.isFinite(newtons) ? newtons / 1000 : null);
