import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { csvText } from "../../kernel-lib/src/dataset";
import { demoCsv, type CsvRow } from "./demo-rows";

/** A study cut from the demonstration, with what makes it hard. */
export interface SmallStudy {
  readonly name: string;
  readonly rows: (all: readonly CsvRow[]) => readonly CsvRow[];
  /** Settings beside title and data. */
  readonly settings?: object;
}

const first = (rows: readonly CsvRow[], n: number): readonly CsvRow[] => rows.slice(0, n);
const having =
  (wanted: Partial<CsvRow>, n: number = 60) =>
  (all: readonly CsvRow[]): readonly CsvRow[] =>
    first(
      all.filter((row) => Object.entries(wanted).every(([name, value]) => row[name] === value)),
      n,
    );

const free: Partial<CsvRow> = { setup: "unconfined_tension" };

/** A bond strength as reported instead of the load. */
function bondStressOnly(row: CsvRow): CsvRow {
  const area = Math.PI * Number(row["bar_diameter_mm"]) * Number(row["embedment_mm"]);
  const stress = (1000 * Number(row["peak_load_kN"])) / area;
  return {
    ...row,
    peak_load_kN: "",
    peak_bar_stress_MPa: "",
    reported_bond_strength_MPa: stress.toFixed(3),
  };
}

/** 5,000 rows: the campaign again and again under other names, with loads that differ a little. */
function many(all: readonly CsvRow[]): readonly CsvRow[] {
  return Array.from({ length: 5000 }, (_, i) => {
    const row = all[i % all.length]!;
    const again = Math.floor(i / all.length);
    const load = Number(row["peak_load_kN"]) * (1 + 0.01 * ((i * 7) % 11) - 0.05);
    return {
      ...row,
      test_id: `${row["test_id"]}-${again}`,
      series_id: `${row["series_id"]}-${again}`,
      peak_load_kN: row["peak_load_kN"] === "" ? "" : load.toFixed(2),
    };
  });
}

/** The studies that every notebook must come through. */
export const SMALL_STUDIES: readonly SmallStudy[] = [
  { name: "one test", rows: having({ ...free, bar_material: "gfrp", failure_mode: "bond" }, 1) },
  {
    name: "one series",
    rows: (all) => {
      const bond = having({ ...free, bar_material: "gfrp", failure_mode: "bond" })(all);
      return all.filter((row) => row["series_id"] === bond[0]?.["series_id"]);
    },
  },
  { name: "one material, no steel", rows: having({ bar_material: "gfrp" }, 120) },
  { name: "no FRP", rows: having({ bar_material: "steel" }, 120) },
  {
    name: "only lower bounds",
    rows: (all) =>
      first(
        all.filter(({ failure_mode }) => /^(grip|stopped|bar_rupture)/.test(failure_mode ?? "")),
        60,
      ).map((row) => ({ ...row, failure_mode: "stopped" })),
  },
  { name: "one mode", rows: having({ ...free, failure_mode: "bond" }, 90) },
  { name: "own tests only", rows: (all) => all.filter((_, i) => i % 20 === 0) },
  {
    name: "other settings",
    rows: (all) => all.filter((_, i) => i % 20 === 1),
    settings: {
      codes: ["en1992-4-2018", "ccd-1995"],
      level: "design",
      by: ["mode", "bar_class"],
      confidence: 0.75,
      criterion: "fractile",
      where: "embedment_mm >= 60",
    },
  },
  { name: "5,000 rows", rows: many },
  {
    name: "no cracked",
    rows: (all) => all.filter((_, i) => i % 25 === 0).map((row) => ({ ...row, cracked: "" })),
  },
  {
    name: "only bond stresses",
    rows: (all) => having({ failure_mode: "bond" }, 80)(all).map(bondStressOnly),
  },
];

/** Writes a study of one's own with the rows, marked as invented; returns its folder. */
export function writeSmallStudy(folder: string, { name, rows, settings }: SmallStudy): string {
  const chosen = rows(demoCsv()).map((row): CsvRow => ({
    ...row,
    study_id: "own",
    curve: "",
    curve_sha256: "",
  }));
  writeDemoRows(join(folder, "data"), Object.keys(chosen[0]!), chosen);
  writeFileSync(join(folder, "data/README.md"), `# ${name}\n\nInvented for a test.\n`);
  writeFileSync(
    join(folder, "study.json"),
    JSON.stringify({ title: name, data: ["data"], ...settings }),
  );
  return folder;
}

/** Writes a data set of one study, marked as invented. */
export function writeDemoRows(
  folder: string,
  header: readonly string[],
  rows: readonly CsvRow[],
): void {
  mkdirSync(folder, { recursive: true });
  const cells = rows.map((row) => header.map((column) => row[column] ?? ""));
  writeFileSync(join(folder, "tests.csv"), csvText(header, cells));
  const study = rows[0]?.["study_id"] ?? "own";
  writeFileSync(
    join(folder, "studies.csv"),
    csvText(["study_id", "provenance", "citation"], [[study, "own", "Invented for a test"]]),
  );
}
