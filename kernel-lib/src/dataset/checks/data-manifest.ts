import { readFile } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import type { Dataset } from "../dataset";
import { sha256 } from "../reading/file-bytes";
import { hashChanges } from "./dataset-changes";
import { DatasetError, diagnostic, type Diagnostic } from "../diagnostics";
import {
  digestChanges,
  rowDigests,
  type DigestChanges,
  type FileRowDigests,
  type RowDigests,
} from "./row-digests";

/** What a manifest says of the data that something was made from. */
export interface DataManifest {
  /** SHA-256 of files, by a path that ends in the data set's folder and file. */
  readonly hashes: Readonly<Record<string, string>>;
  /** Null in manifests written before rows were digested. */
  readonly rowDigests: RowDigests | null;
}

type Entries = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Entries =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const PLACES = ["inputs", "data", "hashes"] as const;

/**
 * Reads the data part of a manifest: the hashes under `inputs` (manifests of a study or packet),
 * `data`, `hashes` (the answer of check as JSON) or at the top, and the digests of rows under
 * `rowDigests`.
 * @throws DatasetError when there is no hash of a file in it
 */
export function parseDataManifest(text: string, file: string): DataManifest {
  let parsed: unknown = null;
  try {
    parsed = JSON.parse(text);
  } catch {
    // Reported below together with every other unfit content.
  }
  if (isRecord(parsed)) {
    const entries = parsed;
    const digests = isRecord(entries["rowDigests"])
      ? Object.entries(entries["rowDigests"]).filter((entry): entry is [string, FileRowDigests] =>
          isFileDigests(entry[1]),
        )
      : null;
    for (const candidate of [...PLACES.map((place) => entries[place]), entries]) {
      if (!isRecord(candidate)) continue;
      const hashes = Object.entries(candidate).filter(
        (entry): entry is [string, string] =>
          typeof entry[1] === "string" && /^[0-9a-f]{64}$/.test(entry[1]),
      );
      if (hashes.length > 0)
        return {
          hashes: Object.fromEntries(hashes),
          rowDigests: digests === null ? null : Object.fromEntries(digests),
        };
    }
  }
  throw new DatasetError(
    `${file} holds no SHA-256 of data files, expected a manifest such as exports/manifest.json or the answer of check --format json`,
  );
}

function isFileDigests(value: unknown): value is FileRowDigests {
  return (
    isRecord(value) &&
    Array.isArray(value["columns"]) &&
    value["columns"].every((name) => typeof name === "string") &&
    isRecord(value["tests"]) &&
    Object.values(value["tests"]).every((digest) => typeof digest === "string")
  );
}

/**
 * Files and rows that changed since a manifest was written; `changes` is null where the manifest
 * does not show which rows changed.
 */
export interface ManifestChanges {
  readonly findings: ReadonlyArray<Diagnostic>;
  readonly changes: DigestChanges | null;
}

/**
 * Compares a data set as it is with a manifest; data sets of the manifest that were not asked about
 * are left alone.
 */
export async function changesSinceManifest(
  manifest: DataManifest,
  dataset: Dataset,
  shown: string,
): Promise<ManifestChanges> {
  const now: Record<string, string> = { ...dataset.hashes };
  const recorded: Record<string, string> = {};
  const folders = new Map<string, string>();
  for (const key of Object.keys(now)) {
    const path = pathIn(manifest.hashes, key);
    if (path === null) continue;
    recorded[key] = manifest.hashes[path] ?? "";
    folders.set(path.slice(0, path.length - key.length + dirname(key).length), dirname(key));
  }
  // Files that a reading does not open (curves, say) are found on disk.
  for (const [path, hash] of Object.entries(manifest.hashes)) {
    const above = [...folders.keys()]
      .filter((folder) => path.startsWith(`${folder}/`))
      .sort((a, b) => b.length - a.length)[0];
    if (above === undefined) continue;
    const name = folders.get(above) ?? "";
    const key = `${name}${path.slice(above.length)}`;
    if (recorded[key] !== undefined) continue;
    recorded[key] = hash;
    const folder =
      dataset.folders.find((one) => resolve(one).endsWith(`/${name}`)) ?? dataset.folders[0] ?? "";
    const bytes = await readFile(join(folder, path.slice(above.length + 1))).catch(() => null);
    if (bytes !== null) now[key] = sha256(bytes);
  }
  const findings = hashChanges(recorded, now);
  if (manifest.rowDigests === null) {
    const message = `${shown} holds hashes of files only, so it does not show which rows changed; expected one written with row digests (study, export or check --format json write them), or the folder as it was before`;
    return {
      findings:
        findings.length === 0
          ? []
          : [
              ...findings,
              diagnostic("information", "no-row-digests", message, {
                file: shown,
                expected: "a manifest with rowDigests",
              }),
            ],
      changes: null,
    };
  }
  return { findings, changes: rowChanges(manifest.rowDigests, dataset) };
}

function rowChanges(before: RowDigests, dataset: Dataset): DigestChanges {
  const after = rowDigests(dataset.tests);
  const found: DigestChanges = { added: [], removed: [], changed: [] };
  const none: FileRowDigests = { columns: [], tests: {} };
  const keys = new Set([
    ...Object.keys(after),
    ...Object.keys(dataset.hashes).filter((key) => pathIn(before, key) !== null),
  ]);
  return [...keys]
    .map((key) => digestChanges(before[pathIn(before, key) ?? ""] ?? none, after[key] ?? none))
    .reduce(
      (all, one) => ({
        added: [...all.added, ...one.added],
        removed: [...all.removed, ...one.removed],
        changed: [...all.changed, ...one.changed],
      }),
      found,
    );
}

/** The manifest's own path of a file that the reading knows as `demo/tests.csv`. */
function pathIn(entries: Entries, key: string): string | null {
  return Object.keys(entries).find((path) => path === key || path.endsWith(`/${key}`)) ?? null;
}
