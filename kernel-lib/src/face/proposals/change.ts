import { mkdir, readFile, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import {
  changedProvisions,
  readProposal,
  type ChangeEvidence,
  type ProposedChange,
} from "../../proposals";

/** One change of a proposal, and what the tests say of it. */
export interface Change {
  readonly provision: string;
  readonly alsoChanges: readonly string[];
  /** A number or a formula; "not permitted"; "new" for an added provision. */
  readonly factor: string;
  /** The condition in the formula language; empty for an added provision. */
  readonly where: string;
  readonly symbol: string | null;
  readonly title: string;
  readonly says: string;
  readonly rationale: string;
  /** The tested range, such as "bar_diameter_mm 9.5 to 25.4". */
  readonly limits: readonly string[];
  /** Whether the tests show that a reduction is needed. */
  readonly supported: boolean;
  readonly reason: string;
}

/** A change as notebooks read it. */
export function changeOf({ proposal, limits, supported, reason }: ChangeEvidence): Change {
  const [provision = "", ...alsoChanges] = changedProvisions(proposal);
  const { title, says, rationale } = proposal;
  const kind = "kind" in proposal ? proposal.kind : "factor";
  return {
    provision,
    alsoChanges,
    factor: "factor" in proposal ? proposal.factor : kind === "addition" ? "new" : "not permitted",
    where: "where" in proposal ? proposal.where : "",
    symbol: "symbol" in proposal ? proposal.symbol : null,
    title,
    says,
    rationale,
    limits: (proposal.limits ?? limits).map(
      ({ column, lower, upper }) => `${column} ${lower} to ${upper}`,
    ),
    supported,
    reason,
  };
}

/** Writes changes as JSON: one as an object, several as a list. Returns the path. */
export async function saveProposal(
  path: string,
  changes: readonly ProposedChange[],
): Promise<string> {
  const content = changes.length === 1 ? changes[0] : changes;
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, `${JSON.stringify(content, null, 2)}\n`);
  return path;
}

/**
 * The changes of a JSON file: one object, or a list of them.
 * @throws Error naming the file and what of it cannot be used
 */
export async function readChanges(path: string): Promise<readonly ProposedChange[]> {
  const text = await readFile(path, "utf8").catch(() => {
    throw new Error(`${path} cannot be opened; expected the JSON file of a proposal.`);
  });
  try {
    const value: unknown = listOf(text);
    return Array.isArray(value)
      ? value.map((one) => readProposal(JSON.stringify(one)))
      : [readProposal(text)];
  } catch (error) {
    throw new Error(`${path}: ${(error as Error).message}`);
  }
}

/** The value of the text; null where it is no JSON, which `readProposal` says. */
function listOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
