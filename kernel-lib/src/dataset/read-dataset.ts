import { readdir } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import {
  declaredColumns,
  declaredLayout,
  parseDataPackage,
  type DataPackage,
} from "./reading/data-package";
import { decodeText } from "./reading/decode-text";
import { DatasetError, diagnostic, shortened, type Diagnostic } from "./diagnostics";
import {
  CURVE_LINK,
  CURVE_VALUES_FILE,
  parseCurveValues,
  withCurveValues,
  type CurveValues,
} from "./reading/curve-values";
import { restoreInterrupted } from "./interrupted-write";
import type { RowSetAside } from "./reading/row-intake";
import { readBytes, sha256 } from "./reading/file-bytes";
import { parseTests } from "./reading/read-tests";
import { parseTestsJson } from "./reading/read-tests-json";
import { parseTestsSpreadsheet } from "./spreadsheet";
import { parseStudies } from "./reading/read-studies";
import type { Study } from "./schema/study";
import { TestTable } from "./table/test-table";

/** A data set folder as read, or several joined. */
export interface Dataset {
  readonly name: string;
  readonly folders: ReadonlyArray<string>;
  readonly tests: TestTable;
  readonly studies: ReadonlyArray<Study>;
  /**
   * The text of the card (README.md), null where there is none; of several folders, one after the
   * other.
   */
  readonly card: string | null;
  readonly descriptor: DataPackage | null;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly setAside: ReadonlyArray<RowSetAside>;
  /** SHA-256 of every file read, by its path within the data set ("demo/tests.csv"). */
  readonly hashes: Readonly<Record<string, string>>;
}

/**
 * Reads a data set folder: `tests.csv` (and further `tests-*.csv`, `.tsv`, `.json` or `.xlsx`),
 * `studies.csv`, `README.md` (the card), `datapackage.json`, and `curve-values.csv` (what the
 * command curves reduced from the tests' records), whose values are joined to the tests.
 * @throws DatasetError when the folder or its tests cannot be opened; every other fault is in
 *   `diagnostics`.
 * @example const demo = await readDataset("datasets/demo"); demo.tests.length
 */
export async function readDataset(folder: string): Promise<Dataset> {
  return readFolder(folder, basename(resolve(folder)));
}

async function readFolder(folder: string, name: string): Promise<Dataset> {
  await restoreInterrupted(folder);
  const present = await listFolder(folder);
  const hashes: Record<string, string> = {};
  const diagnostics: Diagnostic[] = [];
  const setAside: RowSetAside[] = [];
  const load = async (file: string): Promise<Uint8Array | null> => {
    if (!present.includes(file)) return null;
    const bytes = await readBytes(join(folder, file), `${name}/${file}`);
    hashes[`${name}/${file}`] = sha256(bytes);
    return bytes;
  };

  const descriptorBytes = await load("datapackage.json");
  const { descriptor, diagnostics: descriptorFindings } =
    descriptorBytes === null
      ? { descriptor: null, diagnostics: [] }
      : parseDataPackage(
          decodeText(descriptorBytes, "datapackage.json").text,
          `${name}/datapackage.json`,
        );
  diagnostics.push(...descriptorFindings);

  const testFiles = present
    .filter((file) => /^tests(-[^/\\]*)?\.(csv|tsv|json|xlsx)$/i.test(file))
    .sort();
  if (testFiles.length === 0) {
    const message = `${folder} holds no tests.csv, expected one (or tests.tsv, .json, .xlsx, or several such as tests-2.csv)${likelyTables(present)}`;
    throw new DatasetError(message, [
      diagnostic("error", "no-tests", message, { file: folder, expected: "a file tests.csv" }),
    ]);
  }
  let tests: TestTable | null = null;
  for (const file of testFiles) {
    const shown = `${name}/${file}`;
    const options = {
      declared: new Set([...declaredColumns(descriptor), CURVE_LINK.name]),
      ...declaredLayout(descriptor, file),
    };
    const parse = /\.json$/i.test(file)
      ? parseTestsJson
      : /\.xlsx$/i.test(file)
        ? parseTestsSpreadsheet
        : parseTests;
    const reading = parse(await readBytes(join(folder, file), shown), shown, options);
    hashes[shown] = reading.sha256;
    diagnostics.push(...reading.diagnostics);
    setAside.push(...reading.setAside);
    tests = tests === null ? reading.tests : tests.concat(reading.tests);
  }

  const valueBytes = await load(CURVE_VALUES_FILE);
  if (valueBytes !== null && tests !== null) {
    const reduced = parseCurveValues(valueBytes, `${name}/${CURVE_VALUES_FILE}`);
    diagnostics.push(
      ...reduced.diagnostics,
      ...unknownTests(reduced, tests, `${name}/${CURVE_VALUES_FILE}`),
    );
    tests = withCurveValues(tests, reduced.values);
  }
  const studyBytes = await load("studies.csv");
  const studyReading = studyBytes === null ? null : parseStudies(studyBytes, `${name}/studies.csv`);
  if (studyReading === null) {
    diagnostics.push(
      diagnostic(
        "warning",
        "no-studies",
        `${name} has no studies.csv, expected one line for each study; its rows count as own tests`,
        { file: `${name}/studies.csv`, expected: "a file studies.csv" },
      ),
    );
  } else {
    diagnostics.push(...studyReading.diagnostics);
    setAside.push(...studyReading.setAside);
  }
  const cardBytes = await load("README.md");
  const card = cardBytes === null ? null : decodeText(cardBytes, "README.md").text;
  if (card === null)
    diagnostics.push(
      diagnostic(
        "warning",
        "no-card",
        `${name} has no card (README.md), expected one that says what the data are and where they come from`,
        { file: `${name}/README.md`, expected: "a card" },
      ),
    );

  const {
    kept: read,
    findings: repeats,
    setAside: repeatedRows,
  } = withoutRepeats(tests ?? TestTable.fromRows([]), 0);
  const studies = studyReading?.studies ?? [];
  diagnostics.push(...repeats, ...unknownStudies(read, studies, name));
  setAside.push(...repeatedRows);
  return {
    name,
    folders: [folder],
    tests: read,
    studies,
    card,
    descriptor,
    diagnostics,
    setAside,
    hashes,
  };
}

/** Reads several data sets and joins them; ids that two of them use are findings. */
export async function readDatasets(folders: ReadonlyArray<string>): Promise<Dataset> {
  const parts: Dataset[] = [];
  for (const [i, name] of distinctNames(folders).entries())
    parts.push(await readFolder(folders[i] ?? "", name));
  const [first, ...others] = parts;
  if (first === undefined)
    throw new DatasetError("no data set folders were given, expected at least one");
  return others.reduce(joinDatasets, first);
}

/** Folder names, longer where two would be the same: files and hashes are told apart by them. */
function distinctNames(folders: ReadonlyArray<string>): string[] {
  const names = folders.map((folder) => basename(resolve(folder)));
  return names.map((name, i) => {
    if (names.indexOf(name) === names.lastIndexOf(name)) return name;
    const longer = `${basename(dirname(resolve(folders[i] ?? "")))}/${name}`;
    return names.slice(0, i).includes(name) &&
      folders.slice(0, i).some((other) => resolve(other).endsWith(longer))
      ? `${longer} (${String(i + 1)})`
      : longer;
  });
}

function joinDatasets(a: Dataset, b: Dataset): Dataset {
  const {
    kept: tests,
    findings,
    setAside,
  } = withoutRepeats(a.tests.concat(b.tests), a.tests.length);
  const studies = [
    ...a.studies,
    ...b.studies.filter((study) => !a.studies.some(({ study_id }) => study_id === study.study_id)),
  ];
  const cards = [a.card, b.card].filter((card) => card !== null);
  return {
    name: `${a.name} + ${b.name}`,
    folders: [...a.folders, ...b.folders],
    tests,
    studies,
    card: cards.length === 0 ? null : cards.join("\n\n"),
    descriptor: null,
    diagnostics: [...a.diagnostics, ...b.diagnostics, ...findings, ...repeatedStudies(a, b)],
    setAside: [...a.setAside, ...b.setAside, ...setAside],
    hashes: { ...a.hashes, ...b.hashes },
  };
}

/** Files of a folder that may be meant as its tests, and what is to be done with them. */
function likelyTables(present: ReadonlyArray<string>): string {
  const readable = present.filter(
    (file) =>
      /\.(csv|tsv|json|xlsx)$/i.test(file) &&
      !["studies.csv", "datapackage.json", CURVE_VALUES_FILE].includes(file),
  );
  const foreign = present.filter((file) =>
    /\.(xls|xlsm|xlsb|ods|numbers|txt|dat|pdf|docx?)$/i.test(file),
  );
  const list = (files: ReadonlyArray<string>): string =>
    files.slice(0, 5).map(shortened).join(", ");
  return `${readable.length === 0 ? "" : `; it holds ${list(readable)}: is that the table? then name it tests`}${foreign.length === 0 ? "" : `; it holds ${list(foreign)}: save the table of it as tests.csv or tests.xlsx`}`;
}

async function listFolder(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    const why =
      (error as NodeJS.ErrnoException).code === "ENOTDIR"
        ? "is a file"
        : "does not exist or cannot be read";
    const message = `the folder ${folder} ${why}, expected a data set folder with tests.csv`;
    throw new DatasetError(message, [
      diagnostic("error", "no-folder", message, { file: folder, expected: "a data set folder" }),
    ]);
  }
}

/**
 * Studies without a line in studies.csv; their rows are used, but nobody can say where they come
 * from.
 */
function unknownStudies(
  tests: TestTable,
  studies: ReadonlyArray<Study>,
  name: string,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  if (studies.length === 0) return found;
  const known = new Set(studies.map(({ study_id }) => study_id));
  const reported = new Set<string>();
  for (const [i, study] of tests.texts("study_id").entries()) {
    if (study === null || known.has(study) || reported.has(study)) continue;
    reported.add(study);
    const source = tests.source(i);
    found.push(
      diagnostic(
        "warning",
        "unknown-study",
        `${name}: the study "${shortened(study)}" has no line in studies.csv, expected one`,
        {
          file: source?.file ?? `${name}/tests.csv`,
          row: source?.row ?? null,
          column: "study_id",
          value: study,
          expected: "a line in studies.csv",
        },
      ),
    );
  }
  return found;
}

/** Reduced values of tests that the data set does not have. */
function unknownTests({ values }: CurveValues, tests: TestTable, file: string): Diagnostic[] {
  const known = new Set(tests.texts("test_id"));
  return [...values.keys()]
    .filter((id) => !known.has(id))
    .map((id) =>
      diagnostic(
        "warning",
        "values-of-no-test",
        `${file}: there is no test "${shortened(id)}", expected the name of a test; its values are left out`,
        { file, column: "test_id", value: id, expected: "a test of the data set" },
      ),
    );
}

function repeatedStudies(a: Dataset, b: Dataset): Diagnostic[] {
  return b.studies
    .filter((study) => a.studies.some(({ study_id }) => study_id === study.study_id))
    .map(({ study_id }) =>
      diagnostic(
        "warning",
        "study-in-two-sets",
        `the study "${shortened(study_id)}" is in ${a.name} and in ${b.name}, expected it in one; the first line is used`,
        {
          file: `${b.name}/studies.csv`,
          column: "study_id",
          value: study_id,
          expected: "a study in one data set",
        },
      ),
    );
}

/**
 * Sets aside rows from `from` on whose test_id an earlier row of another file has. Within a file
 * the reader has seen to it.
 */
function withoutRepeats(
  tests: TestTable,
  from: number,
): { kept: TestTable; findings: Diagnostic[]; setAside: RowSetAside[] } {
  const findings: Diagnostic[] = [];
  const setAside: RowSetAside[] = [];
  // Of one file nothing is left to look for, and a large one would cost a list of all its names.
  const only = tests.length === 0 ? undefined : tests.source(0)?.file;
  if (from === 0 && only !== undefined && isSole(tests, only))
    return { kept: tests, findings, setAside };
  const kept: number[] = [];
  const first = new Map<string, number>();
  for (const [i, id] of tests.texts("test_id").entries()) {
    const earlier = id === null ? undefined : first.get(id);
    if (id === null || earlier === undefined || i < from) {
      if (id !== null && earlier === undefined) first.set(id, i);
      kept.push(i);
      continue;
    }
    const [here, there] = [tests.source(i), tests.source(earlier)];
    const where = `${there?.file ?? ""} row ${String(there?.row ?? "")}`;
    findings.push(
      diagnostic(
        "error",
        "duplicate-id",
        `${here?.file ?? ""} row ${String(here?.row ?? "")}: test_id "${shortened(id)}" is already in ${where}, expected a name used once`,
        {
          file: here?.file ?? "",
          row: here?.row ?? null,
          column: "test_id",
          value: id,
          expected: "a name used once in all data read together",
        },
      ),
    );
    setAside.push({
      file: here?.file ?? "",
      row: here?.row ?? 0,
      cells: [id],
      reasons: [`test_id "${id}" is already in ${where}`],
    });
  }
  return { kept: kept.length === tests.length ? tests : tests.select(kept), findings, setAside };
}

function isSole(tests: TestTable, file: string): boolean {
  for (let i = 0; i < tests.length; i += 1) if (tests.source(i)?.file !== file) return false;
  return true;
}
