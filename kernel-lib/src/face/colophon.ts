import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { Table } from "../tables";
import type { Study } from "./study";

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

/**
 * What a result rests on, as a table: the library, the data files with their SHA-256 (first 16
 * digits), the lock file and the seed. It holds no date, path or Node version, so that a rerun
 * elsewhere gives the same; the notebook's own record names Node and the kernel.
 * @example colophon(study)
 */
export function colophon(study: Study): Table {
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
  return new Table({
    id: "colophon",
    title: "Data, software and seed used",
    rowKey: ["item"],
    columns: [
      { key: "item", title: "item", kind: "text" },
      { key: "value", title: "value", kind: "text" },
    ],
    rows,
    notes: [caution],
  });
}
