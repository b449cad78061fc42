import { readdir, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Option, type Command } from "commander";
import {
  curveValuesCsv,
  reduceCurveFiles,
  reduceCurvesOf,
  type ReducedTest,
  type ReductionOptions,
} from "../../curves";
import {
  countBySeverity,
  CURVE_VALUES_FILE,
  diagnosticReport,
  readDataset,
  type Diagnostic,
} from "../../dataset";
import { answering } from "../use/answering";
import { absent, helpNotes } from "../use/help";
import { formatOption } from "../use/option-declarations";
import { InvalidInput, listed, oneOf } from "../use/invalid-input";
import { DRIFTS, PLACES, reductionOptions, type ReductionWords } from "./reduction-options";
import { say } from "../use/printing";

const FORMATS = ["text", "json"] as const;

interface CurvesOptions extends ReductionWords {
  readonly out?: string;
  readonly format: string;
}

/**
 * `code-comparison curves <places>`: logger files reduced to the numbers that enter the tests
 * table.
 */
export function registerCurvesCommand(program: Command): void {
  program
    .command("curves")
    .description(
      "reduce load-displacement records to peak load, slip, stiffness, load at loss of adhesion, residual load and energy; raw records are unchanged",
    )
    .argument(
      "<places...>",
      "a data set folder whose tests name their records in the column curve, or logger files, or folders of them",
    )
    .addOption(
      absent(
        new Option(
          "--free-length <mm>",
          "free length of bar between gauge and concrete; its elongation is subtracted from loaded-end gauges (area and modulus from the test's row)",
        ),
        "no elongation is subtracted",
      ),
    )
    .addOption(
      absent(
        new Option("--place <place>", `gauges that give the slip: ${listed(PLACES)}`),
        "loaded_end where there is one",
      ),
    )
    .option(
      "--smoothing <rule>",
      "smoothing of the load: none, moving-median:<points> or moving-mean:<points>",
      "moving-median:3",
    )
    .option(
      "--drift <rule>",
      `correction of slow drift: ${listed(DRIFTS)}; with none, drift is reported but not removed`,
      "none",
    )
    .option(
      "--seating <share>",
      "slip is zero where the load first reaches this share of the peak",
      "0.02",
    )
    .addOption(
      absent(
        new Option(
          "--turn <signs>",
          "reverse the sign of load, displacement or both (separated by a comma)",
        ),
        "signs as recorded",
      ),
    )
    .addOption(
      absent(
        new Option("--out <file>", "CSV file for the values"),
        `${CURVE_VALUES_FILE} of a data set folder, which is joined to its tests; otherwise no file`,
      ),
    )
    .addOption(formatOption(FORMATS))
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "curves datasets/own/my-campaign --free-length 30",
          "curves logger/*.txt --out reduced.csv",
        ],
        exit: "0 all records reduced (flags are listed); 1 a record could not be reduced or contradicts the table",
      }),
    )
    .action(answering(runCurves));
}

interface Reduced {
  readonly curves: ReadonlyArray<ReducedTest>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly out: string | null;
}

async function runCurves(places: ReadonlyArray<string>, options: CurvesOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const { curves, diagnostics, out } = await reducePlaces(
    places,
    reductionOptions(options),
    options.out ?? null,
  );
  if (out !== null && curves.length > 0) await writeFile(out, curveValuesCsv(curves));
  if (format === "json") {
    say(
      JSON.stringify(
        {
          out,
          records: curves.map(
            ({ reduction: { slip_mm: _slip, load_kN: _load, ...values }, ...record }) => ({
              ...record,
              ...values,
            }),
          ),
          diagnostics,
        },
        null,
        2,
      ),
    );
  } else {
    for (const { test_id, reduction } of curves) say(line(test_id, reduction));
    say(
      `${String(curves.length)} ${curves.length === 1 ? "record" : "records"} reduced${out === null ? "" : `, values in ${out}`}`,
    );
    if (diagnostics.length > 0) say(`\n${diagnosticReport(diagnostics, { shown: 20 })}`);
  }
  const counts = countBySeverity(diagnostics);
  return counts.error + counts.warning > 0 || curves.length === 0 ? 1 : 0;
}

async function reducePlaces(
  places: ReadonlyArray<string>,
  reduction: ReductionOptions,
  out: string | null,
): Promise<Reduced> {
  const [first = ""] = places;
  const inside = places.length === 1 ? await readdir(first).catch(() => null) : null;
  if (
    inside !== null &&
    inside.some((file) => /^tests(-[^/\\]*)?\.(csv|tsv|json|xlsx)$/i.test(file))
  ) {
    const dataset = await readDataset(first);
    const { curves, diagnostics } = await reduceCurvesOf(dataset, reduction);
    if (curves.length === 0 && diagnostics.length === 0)
      throw new InvalidInput(
        `No test of ${first} names a record. Fill in column curve with files such as curves/A-1.csv.`,
      );
    return { curves, diagnostics, out: out ?? join(first, CURVE_VALUES_FILE) };
  }
  const files: string[] = [];
  for (const place of places) {
    const found = await stat(place).catch(() => null);
    if (found === null)
      throw new InvalidInput(`${place} does not exist. Enter a logger file or a folder.`);
    if (found.isDirectory())
      files.push(
        ...(await readdir(place))
          .filter((file) => /\.(csv|tsv|txt|asc|dat)$/i.test(file) && file !== CURVE_VALUES_FILE)
          .sort()
          .map((file) => join(place, file)),
      );
    else files.push(place);
  }
  if (files.length === 0)
    throw new InvalidInput(
      `${places.join(", ")} holds no logger files (.csv, .tsv, .txt, .asc or .dat). Enter a logger file or a folder of logger files.`,
    );
  return { ...(await reduceCurveFiles(files, reduction)), out };
}

function line(
  test: string,
  {
    peak_load_kN,
    slip_at_peak_mm,
    initial_stiffness_kN_mm,
    adhesion_load_kN,
    residual_load_kN,
    energy_to_peak_kNmm,
  }: ReducedTest["reduction"],
): string {
  const show = (value: number | null, unit: string): string =>
    value === null || Number.isNaN(value) ? "–" : `${value.toPrecision(4)} ${unit}`;
  return `${test}: peak ${show(peak_load_kN, "kN")} at ${show(slip_at_peak_mm, "mm")}, stiffness ${show(initial_stiffness_kN_mm, "kN/mm")}, loss of adhesion ${show(adhesion_load_kN, "kN")}, residual ${show(residual_load_kN, "kN")}, energy to peak ${show(energy_to_peak_kNmm, "kN mm")}`;
}
