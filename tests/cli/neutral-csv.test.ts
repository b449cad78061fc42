import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { registerPredictCommand } from "../../kernel-lib/src/cli/provisions/predict";
import { csvText, neutralCsvText } from "../../kernel-lib/src/dataset";
import { toCsv } from "../../kernel-lib/src/tables/to-csv";
import { Table } from "../../kernel-lib/src/tables";
import { textOf, trackedFiles } from "../house/project-files";
import { FIVE_SPECIMENS } from "./provisions/five-specimens";
import { folderOfTests } from "./folder-of-tests";
import { runCommand } from "./run-command";

// What a spreadsheet runs: OWASP, CSV Injection: = + - @, tab, carriage return; also full width.
const FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "＝1", " =1"];

let folder = "";
folderOfTests(FIVE_SPECIMENS, (made) => (folder = made));

test("every writer of CSV for people puts an apostrophe before what a spreadsheet would run", () => {
  const rows = FORMULAS.map((text) => [text, -1.5]);
  for (const line of neutralCsvText(["=id", "n"], rows).trimEnd().split("\n").slice(0, 2))
    expect(line).toMatch(/^"?'/);
  const table = new Table({
    id: "t",
    title: "t",
    caption: "t",
    rowKey: ["id"],
    columns: [
      { key: "id", title: "id", kind: "text" },
      { key: "n", title: "n", kind: "number" },
    ],
    rows: FORMULAS.map((id) => ({ id, n: -1.5 })),
  });
  for (const text of FORMULAS) {
    expect(neutralCsvText(["id"], [[text]])).toContain(`'${text}`);
    expect(toCsv(table)).toContain(`'${text}`);
    // A data set is read back by the library: its texts stay as they are.
    expect(csvText(["id"], [[text]])).not.toContain("'");
  }
  expect(neutralCsvText(["n"], [[-1.5]])).toBe("n\n-1.5\n");
});

test("predict --format csv", async () => {
  const file = join(folder, "tests.csv");
  const text = readFileSync(file, "utf8");
  const id = text.split("\n")[1]!.split(",")[0]!;
  writeFileSync(file, text.replace(`\n${id},`, "\n=1+2,"));
  const { out } = await runCommand(
    [registerPredictCommand],
    ["predict", file, "--codes", "aci318-19", "--format", "csv"],
  );
  expect(out).toContain("\n'=1+2,aci318-19,");
  expect(out).not.toMatch(/^=/m);
});

const tracked = trackedFiles();
test.skipIf(tracked === null)("no command writes CSV by other means", () => {
  const own = (tracked ?? [])
    .filter((file) => /^kernel-lib\/src\/cli\/.*\.ts$/.test(file))
    .filter((file) => /\bcsvText\b|\.join\(["'`][,;]["'`]\)\s*\)?\s*\.join\(/.test(textOf(file)));
  expect(own).toEqual([]);
});
