import { join } from "node:path";
import { format, resolveConfig } from "prettier";
import { CODES } from "../../kernel-lib/src/provisions";
import { project } from "../house/project-files";

/** Where the names are written. */
export const GENERATED_NAMES = join(project, "kernel-lib/src/face/results/generated-names.ts");

const union = (names: Iterable<string>): string =>
  [...new Set(names)].map((name) => `| ${JSON.stringify(name)}`).join("\n");

/**
 * Ids of codes and provisions, names of code options and modes, from the definitions, as literal
 * types: they complete in quotes, and a misspelt one is refused before a cell runs.
 */
export async function generatedNames(): Promise<string> {
  const provisions = CODES.flatMap((code) => code.provisions);
  const first = new Map<string, string>();
  const options = CODES.map(({ id, options: offered }) => {
    const names = union(Object.keys(offered)) || "never";
    const same = first.get(names);
    if (same === undefined) first.set(names, id);
    return `${JSON.stringify(id)}: ${same === undefined ? names : `CodeOptionNames[${JSON.stringify(same)}]`};`;
  });
  const text = `// Written by \`npm run derived\` from the definitions of the codes; a test compares them.

/** Ids of the codes and models. */
export type CodeId = ${union(CODES.map(({ id }) => id))};

/** Ids of the provisions, code/clause. */
export type ProvisionId = ${union(provisions.map(({ id }) => id))};

/** Modes that a provision predicts. */
export type Mode = ${union(provisions.flatMap(({ modes }) => [...modes]))};

/** Names of the options of each code. */
export interface CodeOptionNames {
${options.join("\n")}
}
`;
  return format(text, { ...(await resolveConfig(GENERATED_NAMES)), parser: "typescript" });
}
