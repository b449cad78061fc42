import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Dataset, Invented } from "../dataset";
import type { TableContent } from "../tables";
import { KeptTable } from "./results/kept";
import { count } from "./results/names";
import { rowsNotUsed } from "./rows-not-used";
import { METADATA } from "./show";

/**
 * Version of the library.
 * @example show(version)
 */
export const version: string = (
  JSON.parse(readFileSync(join(__dirname, "..", "..", "package.json"), "utf8")) as {
    version: string;
  }
).version;

/**
 * The caution that stands wherever results are shown.
 * @example show(caution)
 */
export const caution: string =
  "Research use only. Proposed factors are not code. Anchorage failures can kill. Design must follow the local code and a licensed engineer. Demonstration data are invented and prove nothing.";

/** SHA-256 of the nearest package-lock.json at or above a folder; empty when there is none. */
export function lockFileHash(root: string): string {
  for (let folder = root; ; folder = dirname(folder)) {
    const file = join(folder, "package-lock.json");
    if (existsSync(file)) return createHash("sha256").update(readFileSync(file)).digest("hex");
    if (dirname(folder) === folder) return "";
  }
}

/** What is known of the data of a study. */
export interface StudyData {
  /** The project's folder. */
  readonly root: string;
  readonly data: Dataset;
  readonly seed: number;
  /** Whether the data are invented, all or in part. */
  readonly invented: Invented;
}

/**
 * What a result rests on, as a table: the library, the data files with their SHA-256 (first 16
 * digits), the lock file, the seed, and the rows that were read and are not used. It holds no date, path or Node version, so that a rerun
 * elsewhere gives the same; the notebook's own record names Node and the kernel.
 * @example colophon(study)
 */
export function colophon(study: StudyData, keeps = false): KeptTable {
  const lock = lockFileHash(study.root);
  const rows = [
    { item: "kernel-lib", value: version },
    { item: "lock file", value: lock === "" ? "none" : `sha256 ${lock.slice(0, 16)}` },
    { item: "seed", value: String(study.seed) },
    ...Object.entries(study.data.hashes).map(([file, hash]) => ({
      item: file.replaceAll("\\", "/").replace(`${study.root.replaceAll("\\", "/")}/`, ""),
      value: `sha256 ${String(hash).slice(0, 16)}`,
    })),
  ].filter(({ item }) => !item.includes("/curves/"));
  return new Basis(
    {
      id: "colophon",
      title: "Data, software and seed used",
      rowKey: ["item"],
      columns: [
        { key: "item", title: "item", kind: "text" },
        { key: "value", title: "value", kind: "text" },
      ],
      rows: [...rows, ...unusedRows(study)],
      notes: [caution],
    },
    keeps,
    study.root,
  );
}

/** Longer lists are in the audit; here they would hide the files. */
const MOST_ROWS = 20;

function unusedRows({ data }: StudyData): { readonly item: string; readonly value: string }[] {
  const unused = rowsNotUsed(data);
  const listed = unused.slice(0, MOST_ROWS);
  const more = unused.length - listed.length;
  return [
    ...listed.map(({ status, place, reason }) => ({ item: `${status}: ${place}`, value: reason })),
    ...(more === 0
      ? []
      : [{ item: `${count(more, "more row")} not used`, value: 'audit().table("excluded")' }]),
  ];
}

/**
 * Run in Jupyter, the output of this table says what it was run with; a review reads that first.
 */
class Basis extends KeptTable {
  readonly #root: string;

  constructor(content: TableContent, keeps: boolean, root: string) {
    super(content, keeps);
    this.#root = root;
  }

  async [METADATA](): Promise<object> {
    const { recordEnvironment } = await import("../notebook/run/recorded-environment.js");
    return { code_comparison: { recorded: await recordEnvironment(this.#root, ["datasets"]) } };
  }
}
