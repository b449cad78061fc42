import { readFile } from "node:fs/promises";
import { readProposal, type ProposedChange } from "../../proposals";
import { asNamed, WrongUse } from "../use/wrong-use";

/** The proposals in JSON files. @throws WrongUse naming the file, and what of it cannot be used */
export async function proposalFiles(files: readonly string[]): Promise<ProposedChange[]> {
  return Promise.all(
    files.map(async (file) => {
      const text = await readFile(file, "utf8").catch(() => {
        throw new WrongUse(`${file} cannot be opened, expected the JSON file of a proposal`);
      });
      try {
        return asNamed(() => readProposal(text));
      } catch (error) {
        throw new WrongUse(`${file}: ${(error as Error).message}`);
      }
    }),
  );
}
