import { readFile } from "node:fs/promises";
import { readProposal, type ProposedChange } from "../../proposals";
import { asNamed, InvalidInput } from "../use/invalid-input";

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
