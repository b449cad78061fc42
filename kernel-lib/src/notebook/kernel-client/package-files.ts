import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const requireHere = createRequire(__filename);

/** The path of a file inside an installed package. */
export function resolvePackageFile(packageName: string, file: string): string {
  return join(dirname(requireHere.resolve(`${packageName}/package.json`)), file);
}
