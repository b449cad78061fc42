import { basename, join, resolve } from "node:path";
import { declaredColumns, declaredLayout, parseDataPackage } from "./reading/data-package";
import { decodeText } from "./reading/decode-text";
import { DatasetError, diagnostic, type Diagnostic } from "./diagnostics";
import {
  CURVE_LINK,
  CURVE_VALUES_FILE,
  parseCurveValues,
  withCurveValues,
} from "./reading/curve-values";
import { restoreInterrupted } from "./interrupted-write";
import type { RowSetAside } from "./reading/row-set-aside";
import { readBytes, sha256 } from "./reading/file-bytes";
import { parseTests } from "./reading/read-tests";
import { parseTestsJson } from "./reading/read-tests-json";
import { parseTestsSpreadsheet } from "./spreadsheet";
import { parseStudies } from "./reading/read-studies";
import { TestTable } from "./table/test-table";
import type { Dataset } from "./dataset";
import { listFolder, likelyTables } from "./dataset-folder";
import { unknownTests, unknownStudies } from "./unknown-names";
import { withoutRepeats } from "./repeated-tests";
import { distinctNames, joinDatasets } from "./join-datasets";

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
  const rejected: RowSetAside[] = [];
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
    rejected.push(...reading.rejected);
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
    rejected.push(...studyReading.rejected);
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
    rejected: repeatedRows,
  } = withoutRepeats(tests ?? TestTable.fromRows([]), 0);
  const studies = studyReading?.studies ?? [];
  diagnostics.push(...repeats, ...unknownStudies(read, studies, name));
  rejected.push(...repeatedRows);
  return {
    name,
    folders: [folder],
    tests: read,
    studies,
    card,
    descriptor,
    diagnostics,
    rejected,
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
