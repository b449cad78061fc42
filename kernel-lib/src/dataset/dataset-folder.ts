import { readdir } from "node:fs/promises";
import { DatasetError, diagnostic, shortened } from "./diagnostics";
import { CURVE_VALUES_FILE } from "./reading/curve-values";

/** Files of a folder that may be meant as its tests, and what is to be done with them. */
export function likelyTables(present: ReadonlyArray<string>): string {
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
  const words = (files: ReadonlyArray<string>, advice: string): string =>
    files.length === 0 ? "" : `; it holds ${list(files)}: ${advice}`;
  return (
    words(readable, "is that the table? then name it tests") +
    words(foreign, "save the table of it as tests.csv or tests.xlsx")
  );
}

/** Names of the files in a data set folder. @throws DatasetError where there is no such folder */
export async function listFolder(folder: string): Promise<string[]> {
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
