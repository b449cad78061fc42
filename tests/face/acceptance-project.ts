import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { csvText as csvOf } from "../../kernel-lib/src/dataset";
import { project } from "../house/project-files";

const csvText = ([header = [], ...rows]: readonly (readonly string[])[]): string =>
  csvOf(header, rows);

/** A data folder of one's own: bond tests of the demonstration under other names. */
function ownCampaign(folder: string): void {
  const [header = [], ...rows] = parse(
    readFileSync(join(project, "datasets/demo/tests.csv"), "utf8"),
  );
  const at = (name: string): number => header.indexOf(name);
  const chosen = rows
    .filter(
      (row) =>
        row[at("failure_mode")] === "bond" &&
        row[at("bar_material")] === "gfrp" &&
        // A confined test does not test the provision.
        row[at("setup")] === "unconfined_tension",
    )
    .slice(0, 8)
    .map((row, i) =>
      row.map((cell, k) =>
        k === at("test_id")
          ? `MY-${i + 1}`
          : k === at("study_id")
            ? "my-campaign"
            : k === at("curve")
              ? ""
              : cell,
      ),
    );
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "tests.csv"), csvText([header, ...chosen]));
  writeFileSync(
    join(folder, "studies.csv"),
    csvText([
      ["study_id", "provenance", "citation"],
      ["my-campaign", "own", "Invented for a test"],
    ]),
  );
  writeFileSync(join(folder, "README.md"), "# My campaign\n\nInvented for a test.\n");
}

/** An invented table in the shape that the recipe of the acceptance cells reads. */
const COMPILATION = csvText([
  ["Invented for a test"],
  [
    "Reference",
    "Bar fiber type",
    "Bar surface treatment",
    "Bar diameter (mm)",
    "Bar tensile elastic modulus (GPa)",
    "Concrete compressive strength (MPa)",
    "Bonded-length-to-diameter ratio",
    "Bond strength (MPa)",
    "Rib-spacing-to-diameter ratio",
    "Rib-height-to-diameter ratio",
  ],
  ["Nobody A. Bars that are not. 2021.", "1", "3", "12", "45", "30", "5", "14.2", "1", "6"],
  ["", "2", "3", "12", "50", "30", "5", "15.1", "1", "6"],
  ["", "1", "5", "10", "44", "40", "5", "none", "0", "0"],
]);

/** The record of a review of one notebook that this project holds. */
function reviewRecord(notebook: string, bytes: Uint8Array): object {
  const cell = {
    id: "cell-1",
    verdict: "same",
    explanation: "the same",
    tolerance: 1e-9,
    largest_relative_difference: 0,
    opinion: "",
    remark: "",
  };
  return {
    schema: "code-comparison-review/3",
    reviewer: "B. Reviewer",
    signed: "2026-01-02T03:04:05.000Z",
    reproduced: true,
    excused_accepted: false,
    environment: {
      node: process.versions.node,
      tslab: "1.0.22",
      library: "0".repeat(64),
      lock_file: "",
      inputs: {},
    },
    notebooks: [
      {
        name: notebook,
        sha256: createHash("sha256").update(bytes).digest("hex"),
        reproduced: true,
        code_cells: 2,
        reasons: [],
        notes: [],
        cells: [
          { number: 1, ...cell },
          { number: 2, ...cell, verdict: "within_tolerance", opinion: "question", remark: "K?" },
        ],
      },
    ],
  };
}

/**
 * Makes a project in which the acceptance cells run: the demonstration, a campaign of one's own, a
 * recipe with a table for it, and a review record. Everything in it is invented.
 */
export function makeAcceptanceProject(folder: string): void {
  mkdirSync(join(folder, "datasets"), { recursive: true });
  for (const part of ["datasets/demo", "datasets/recipes", "package.json", "package-lock.json"])
    cpSync(join(project, part), join(folder, part), { recursive: true });
  ownCampaign(join(folder, "datasets/own/my-campaign"));
  writeFileSync(join(folder, "FRP_SWSSC.csv"), COMPILATION);
  const notebook = Buffer.from('{"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}');
  for (const part of ["notebooks", "exports/review"])
    mkdirSync(join(folder, part), { recursive: true });
  writeFileSync(join(folder, "notebooks/one.ipynb"), notebook);
  writeFileSync(
    join(folder, "exports/review/review-record.json"),
    JSON.stringify(reviewRecord("one.ipynb", notebook)),
  );
}
