import { csvText, testsCsv } from "../../../kernel-lib/src/dataset";
import {
  clauseOf,
  CODES,
  DEVELOPMENT_LENGTHS,
  developmentLength,
  predict,
  type CodeDefinition,
  type Level,
} from "../../../kernel-lib/src/provisions";
import { goldenBars, goldenSpecimens, otherOptions, SPLITTING_STATED } from "./grid";

const LEVELS: readonly Level[] = ["expected", "nominal", "design"];
/** A withheld value is a blank; others stand with every digit. */
const written = (value: number): string => (Number.isNaN(value) ? "" : String(value));

interface Column {
  readonly name: string;
  readonly values: readonly string[];
}

function columnsOf(code: CodeDefinition): Column[] {
  const specimens = goldenSpecimens();
  const variants: readonly (readonly [string, Record<string, number>])[] = [
    ["", {}],
    [", options", otherOptions(code)],
    ...(Object.hasOwn(code.options, "c_cr_sp_ratio")
      ? [[", splitting stated", SPLITTING_STATED] as const]
      : []),
  ];
  return variants
    .flatMap(([suffix, options]) =>
      LEVELS.flatMap((level) =>
        predict(code, specimens, { level, options })
          .columns.filter(
            ({ provision }) =>
              suffix !== ", splitting stated" || provision.modes.includes("splitting"),
          )
          .map(({ provision, capacity }) => ({
            name: `${clauseOf(provision.id)} ${level}${suffix}`,
            values: Array.from(capacity, written),
          })),
      ),
    )
    .filter(({ values }) => values.some((value) => value !== ""));
}

function lengthColumns(): Column[] {
  const bars = goldenBars();
  return DEVELOPMENT_LENGTHS.flatMap((rule) =>
    [{}, otherOptions(rule.code)].map((options, other) => ({
      name: `${rule.code.id} ${clauseOf(rule.definition.id)}${other === 1 ? ", options" : ""}`,
      values: bars.map((bar) => written(developmentLength(rule, bar, options).length_mm)),
    })),
  );
}

const csv = (ids: readonly (string | null)[], columns: readonly Column[]): string =>
  csvText(
    ["test_id", ...columns.map(({ name }) => name)],
    ids.map((id, i) => [id ?? "", ...columns.map(({ values }) => values[i] ?? "")]),
  );

/**
 * The golden files by name: the specimens, one file a code with the capacity in N of each provision
 * and level (with the code's defaults, then with every option at another value), and the
 * development lengths in mm.
 */
export function goldenFiles(): Map<string, string> {
  const specimens = goldenSpecimens();
  return new Map([
    ["specimens.csv", testsCsv(specimens)],
    ...CODES.map((code): [string, string] => [
      `${code.id}.csv`,
      csv(specimens.texts("test_id"), columnsOf(code)),
    ]),
    [
      "development-lengths.csv",
      csv(
        goldenBars().map(({ id }) => id),
        lengthColumns(),
      ),
    ],
  ]);
}

/** Cells by column and row name. */
export function cellsOf(text: string): Map<string, Map<string, string>> {
  const [head = [], ...rows] = text
    .trimEnd()
    .split(/\r?\n/)
    .map(
      (line) =>
        line
          .match(/("([^"]|"")*"|[^,]*)(,|$)/g)
          ?.map((cell) => cell.replace(/,$/, "").replace(/^"|"$/g, "")) ?? [],
    );
  return new Map(
    head
      .slice(1, -1)
      .map((name, k) => [name, new Map(rows.map((row) => [row[0] ?? "", row[k + 1] ?? ""]))]),
  );
}

/** Every cell that differs by more than 1e-12, as a sentence that names file, column and row. */
export function differences(file: string, committed: string, now: string): string[] {
  const [before, after] = [cellsOf(committed), cellsOf(now)];
  const found: string[] = [];
  for (const name of new Set([...before.keys(), ...after.keys()])) {
    const [old, current] = [before.get(name), after.get(name)];
    if (!old || !current) {
      found.push(`${file}, ${name}: ${old ? "no longer there" : "not in the file yet"}`);
      continue;
    }
    for (const row of new Set([...old.keys(), ...current.keys()])) {
      const [a = "", b = ""] = [old.get(row), current.get(row)];
      if (a === b || Math.abs(Number(b) / Number(a) - 1) <= 1e-12) continue;
      found.push(
        `${file}, ${name}, row ${row}: ${a || "withheld"} in the file, ${b || "withheld"} now`,
      );
    }
  }
  return found;
}
