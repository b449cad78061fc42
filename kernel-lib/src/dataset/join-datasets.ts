import { basename, dirname, resolve } from "node:path";
import { diagnostic, shortened, type Diagnostic } from "./diagnostics";
import type { Dataset } from "./dataset";
import { withoutRepeats } from "./repeated-tests";

/** Folder names, longer where two would be the same: files and hashes are distinguished by them. */
export function distinctNames(folders: ReadonlyArray<string>): string[] {
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

/** Two data sets as one; tests and studies that both have are findings. */
export function joinDatasets(a: Dataset, b: Dataset): Dataset {
  const {
    kept: tests,
    findings,
    rejected,
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
    rejected: [...a.rejected, ...b.rejected, ...rejected],
    hashes: { ...a.hashes, ...b.hashes },
  };
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
