import type { Command } from "commander";
import {
  CALCULATION_CAUTION,
  clauseOf,
  elasticities,
  type CapacityElasticities,
  type RowElasticities,
} from "../../provisions";
import { elasticityTable } from "../../tables";
import { findTest, requireOneLoad, type TestOptions } from "./find-test";
import { answering } from "../use/answering";
import { dataOption, whereOption } from "../use/chosen-rows";
import { helpNotes } from "../use/help";
import {
  codeNamed,
  codeSettingOption,
  formatOption,
  levelNamed,
  levelOption,
  oneCodeOption,
  readingsNamed,
  settingsFor,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { invalidOption, oneOf, positiveNumber } from "../use/invalid-input";
import { TABLE_FORMATS, tableText } from "./table-format";
import { say } from "../use/printing";

const FORMATS = [...TABLE_FORMATS, "json"] as const;

interface SensitivityOptions extends TestOptions {
  readonly codes: string;
  readonly level: string;
  readonly within: string;
  readonly format: string;
  readonly option: readonly string[];
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
}

/** `code-comparison sensitivity <test_id>`: what each capacity of one test depends on. */
export function registerSensitivityCommand(program: Command): void {
  program
    .command("sensitivity")
    .description(
      "percent change in capacity per 1 % change in each input of one test; nearby changes of mode, branch or limit",
    )
    .argument("[test_id]", "the test, as in tests.csv; may be omitted where --where chooses one")
    .addOption(oneCodeOption())
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(levelOption())
    .option(
      "--within <percent>",
      "range around each input searched for a change of mode, branch or limit, %",
      "1",
    )
    .addOption(formatOption(FORMATS))
    .addOption(codeSettingOption())
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: ["sensitivity IH-006-1 --codes aci318-19 --within 5"],
        exit: "0 answered; 1 no capacity applies to the test",
      }),
    )
    .action(answering(answer));
}

async function answer(named: string | undefined, options: SensitivityOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const code = codeNamed(options.codes);
  const level = levelNamed(options.level);
  const [settings = {}] = settingsFor([code], level, options.option, readingsNamed(options));
  const within = positiveNumber("within", options.within) / 100;
  if (within >= 1) throw invalidOption("within", options.within, "a number below 100");
  const found = await findTest(named, options);
  const { tests, row, id } = found;
  requireOneLoad(found);
  const all = elasticities(code, tests, row, { ...settings, within });
  if (format === "json") say(JSON.stringify(asJson(id, all), null, 2));
  else {
    const governs = all.governing
      ? `Governing: ${all.governing.provision.title} (${clauseOf(all.governing.provision.id)}).`
      : "No capacity that this test can reach applies.";
    say(
      tableText(
        elasticityTable(all, {
          id: "sensitivity",
          title: `Elasticities, test ${id}, ${code.id}, ${level} level`,
          notes: [governs, CALCULATION_CAUTION],
        }),
        format,
      ),
    );
  }
  return all.capacities.length > 0 ? 0 : 1;
}

function asJson(
  id: string,
  { code, level, within, capacities, governing, withheld }: RowElasticities,
): object {
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  const shown = ({ provision, capacity_N, governs, by }: CapacityElasticities): object => ({
    clause: clauseOf(provision.id),
    mode: provision.modes[0],
    capacity_kN: capacity_N / 1000,
    governs,
    elasticities: by.map(({ variable, elasticity, switches }) => ({
      variable: variable.name,
      value: variable.value,
      unit: variable.unit,
      elasticity,
      switches: switches.map((one) => ({
        at: one.at,
        relative: one.relative,
        because: one.because,
        elasticity_beyond: finite(one.elasticityBeyond),
        jump: finite(one.jump),
      })),
    })),
  });
  return {
    test_id: id,
    code: code.id,
    level,
    within,
    governing: governing === null ? null : shown(governing),
    capacities: capacities.map(shown),
    withheld: withheld.map(({ provision, reasons }) => ({
      clause: clauseOf(provision.id),
      mode: provision.modes[0],
      reasons: reasons.map(({ clause, says }) => `${clause}: ${says}`),
    })),
  };
}
