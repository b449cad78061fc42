import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { project } from "./project-files";

const built = existsSync(join(project, "kernel-lib", "dist", "index.js"));
if (!built) console.log("skipped: what the library loads, because kernel-lib is not built");

/** Packages in Node's cache after the code has run in a process of its own. */
function packagesAfter(code: string): string[] {
  const script = `${code}; console.log(JSON.stringify(Object.keys(require.cache)))`;
  const files = JSON.parse(
    execFileSync(process.execPath, ["-e", script], { cwd: project, encoding: "utf8" }),
  ) as string[];
  const names = files
    .map((file) =>
      /.*[\\/]node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(file)?.[1]?.replaceAll("\\", "/"),
    )
    .filter((name) => name !== undefined);
  return [...new Set(names)].sort();
}

const heavy = [
  "danfojs-node",
  "plotly.js",
  "jsdom",
  "tslab",
  "@tslab/typescript-for-tslab",
  "zeromq",
  "pdfkit",
  "svg-to-pdfkit",
  "fontkit",
  "@resvg/resvg-js",
  "ajv",
  "typescript",
];

describe('require("kernel-lib")', () => {
  it.skipIf(!built)("loads none of the packages that are slow to load", () => {
    expect(packagesAfter('require("kernel-lib")').filter((name) => heavy.includes(name))).toEqual(
      [],
    );
    // The same look at the cache does see a package once it is asked for.
    expect(packagesAfter('require("kernel-lib"); require("pdfkit")')).toContain("pdfkit");
  });
});
