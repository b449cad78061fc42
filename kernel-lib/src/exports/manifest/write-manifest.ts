import { createHash } from "node:crypto";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import manifestSchema from "./manifest.schema.json";

/** One file a committee receives. */
export interface ManifestFile {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** What the exports folder holds and what it was made from. */
export interface Manifest {
  readonly caution: string;
  readonly madeWith: Readonly<Record<string, string>>;
  /** SHA-256 of every data file, by its path. */
  readonly inputs: Readonly<Record<string, string>>;
  /**
   * Digests of the rows of the data, so that a later state can be compared row by row; absent in
   * manifests from before they were kept.
   */
  readonly rowDigests?: Readonly<
    Record<
      string,
      { readonly columns: readonly string[]; readonly tests: Readonly<Record<string, string>> }
    >
  >;
  readonly files: readonly ManifestFile[];
}

/** A manifest that cannot be used: the message says what was expected. */
export class ManifestProblem extends Error {
  override readonly name = "ManifestProblem";
}

/** Reads a manifest and checks it against its schema. @throws ManifestProblem */
export async function readManifest(file: string): Promise<Manifest> {
  const refuse = (what: string): ManifestProblem =>
    new ManifestProblem(
      `${file} ${what}, expected a manifest written by code-comparison export or study`,
    );
  const text = await readFile(file, "utf8").catch(() => {
    throw refuse("cannot be read");
  });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    throw refuse("is not valid JSON");
  }
  const { Ajv } = await import("ajv");
  const validate = new Ajv().compile<Manifest>(manifestSchema);
  if (validate(parsed)) return parsed;
  const [fault] = validate.errors ?? [];
  throw refuse(
    `is no manifest (${fault?.instancePath || "the top"} ${fault?.message ?? "is wrong"})`,
  );
}

/** All files below a folder, sorted, with slashes. */
export async function filesBelow(folder: string): Promise<string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
}

/** SHA-256 of a file, in hexadecimal. */
export async function fileHash(file: string): Promise<string> {
  return createHash("sha256")
    .update(await readFile(file))
    .digest("hex");
}

/**
 * Lists every file of an exports folder with its size and SHA-256 in `manifest.json`. It holds no
 * date, so that two runs over the same data give identical bytes.
 */
export async function writeManifest(
  folder: string,
  facts: Omit<Manifest, "files">,
): Promise<Manifest> {
  const names = (await filesBelow(folder)).filter((name) => name !== "manifest.json");
  const files = await Promise.all(
    names.map(async (file) => {
      const content = await readFile(join(folder, file));
      return {
        file,
        bytes: content.length,
        sha256: createHash("sha256").update(content).digest("hex"),
      };
    }),
  );
  const manifest = { ...facts, files };
  await writeFile(join(folder, "manifest.json"), `${JSON.stringify(manifest, null, 1)}\n`);
  return manifest;
}

/**
 * Recomputes the hashes of a folder's manifest; an empty list says that every file is as listed.
 * @throws ManifestProblem when the manifest is not one, by the JSON Schema beside this file
 */
export async function verifyManifest(folder: string): Promise<string[]> {
  const manifest = await readManifest(join(folder, "manifest.json"));
  const present = new Set((await filesBelow(folder)).filter((name) => name !== "manifest.json"));
  const faults: string[] = [];
  for (const { file, sha256 } of manifest.files) {
    if (!present.delete(file)) faults.push(`${file}: listed but missing`);
    else if ((await fileHash(join(folder, file))) !== sha256)
      faults.push(`${file}: content differs from the manifest`);
  }
  return [...faults, ...[...present].map((file) => `${file}: not listed`)];
}
