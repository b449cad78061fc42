import { createHash } from "node:crypto";
import { readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { NotebookProblem, writeWhole } from "../format";

/** Name of the record of a review in its folder. */
export const REVIEW_RECORD_FILE = "review-record.json";

/** What a person who signs may say. */
export const SIGN_OFF_OPINIONS = ["agree", "agree with remarks", "disagree"] as const;
export type SignOffOpinion = (typeof SIGN_OFF_OPINIONS)[number];

/** A person's opinion of a whole review, tied to the record by its hash. */
export interface SignOff {
  readonly schema: "code-comparison-sign-off/1";
  readonly name: string;
  readonly opinion: SignOffOpinion;
  readonly remark: string;
  /** When it was signed, ISO 8601 in UTC. */
  readonly signed: string;
  /** SHA-256 of the review record that was signed. */
  readonly record_sha256: string;
  /** What no longer fitted the record when it was signed; empty where all did. */
  readonly open: readonly string[];
}

/** A sign-off as it lies in the folder; `holds` is false where the record has changed since. */
export interface ReadSignOff {
  readonly file: string;
  readonly signOff: SignOff;
  readonly holds: boolean;
}

/**
 * Signs the review record of a folder: a file of its own beside it, which a later change of the
 * record makes void. It carries a name, not a seal.
 * @returns the path of the file
 * @throws NotebookProblem without a name, or without a remark where the opinion calls for one
 */
export async function writeSignOff(
  folder: string,
  given: Pick<SignOff, "name" | "opinion" | "remark" | "open">,
  now: Date = new Date(),
): Promise<string> {
  const name = given.name.trim();
  if (name === "")
    throw new NotebookProblem('a sign-off needs the reviewer\'s name, such as "A. Reviewer"');
  if (given.opinion !== "agree" && given.remark.trim() === "")
    throw new NotebookProblem(`the opinion "${given.opinion}" needs a remark that says why`);
  const signOff: SignOff = {
    schema: "code-comparison-sign-off/1",
    ...given,
    name,
    signed: now.toISOString(),
    record_sha256: await recordHash(folder),
  };
  const slug = name
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  const file = join(folder, `sign-off-${slug || "reviewer"}.json`);
  await writeWhole(file, `${JSON.stringify(signOff, null, 2)}\n`);
  return file;
}

/** The sign-offs of a folder, by file name. @throws NotebookProblem for one that is none */
export async function readSignOffs(folder: string): Promise<ReadSignOff[]> {
  const files = (await readdir(folder)).filter((name) => /^sign-off-.*\.json$/.test(name)).sort();
  const hash = files.length === 0 ? "" : await recordHash(folder);
  return Promise.all(
    files.map(async (name) => {
      const file = join(folder, name);
      const signOff = parsed(await readFile(file, "utf8"), file);
      return { file, signOff, holds: signOff.record_sha256 === hash };
    }),
  );
}

function parsed(text: string, file: string): SignOff {
  const refuse = (what: string, cause?: unknown): never => {
    throw new NotebookProblem(`${file} is no sign-off: ${what}`, { cause });
  };
  let value: Partial<Record<keyof SignOff, unknown>>;
  try {
    value = JSON.parse(text) as Partial<Record<keyof SignOff, unknown>>;
  } catch (error) {
    return refuse(`it is no valid JSON (${(error as Error).message})`, error);
  }
  if (value.schema !== "code-comparison-sign-off/1") refuse("its schema is another one");
  for (const key of ["name", "remark", "signed", "record_sha256"] as const)
    if (typeof value[key] !== "string") refuse(`"${key}" is no text`);
  if (!SIGN_OFF_OPINIONS.includes(value.opinion as SignOffOpinion))
    refuse(`"${String(value.opinion)}" is none of ${SIGN_OFF_OPINIONS.join(", ")}`);
  return value as SignOff;
}

async function recordHash(folder: string): Promise<string> {
  const file = join(folder, REVIEW_RECORD_FILE);
  const bytes = await readFile(file).catch((error: Error) => {
    throw new NotebookProblem(`there is no review record ${file}`, { cause: error });
  });
  return createHash("sha256").update(bytes).digest("hex");
}
