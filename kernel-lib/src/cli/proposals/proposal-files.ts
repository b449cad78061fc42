import { readFile } from "node:fs/promises";
import { readProposal, type ProposedChange } from "../../proposals";
import { asNamed, InvalidInput } from "../use/invalid-input";

/** A proposal as its file states it; a test reads it. */
export const EXAMPLE = JSON.stringify(
  {
    id: "frp-bond",
    title: "FRP bars in bond",
    changes: "aci318-19/17.6.5",
    symbol: "psi_FRP_b",
    where: "frp == 1",
    factor: 0.8,
    says: "0.8 for FRP bars, 1 for steel",
    rationale: "The characteristic test-to-predicted ratio is below 1.0.",
    derivation: "(how the factor was found)",
    evidence: "(which tests)",
  },
  null,
  1,
).replace(/\n */g, " ");

/** The proposals in JSON files. @throws InvalidInput naming the file, and what of it cannot be used */
export async function proposalFiles(files: readonly string[]): Promise<ProposedChange[]> {
  return Promise.all(
    files.map(async (file) => {
      const text = await readFile(file, "utf8").catch(() => {
        throw new InvalidInput(`${file} cannot be opened. Enter the JSON file of a proposal.`);
      });
      try {
        return asNamed(() => readProposal(text));
      } catch (error) {
        throw new InvalidInput(`${file}: ${(error as Error).message}`);
      }
    }),
  );
}
