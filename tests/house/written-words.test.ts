import { describe, expect, it } from "vitest";
import { textOf, trackedFiles } from "./project-files";

const tracked = trackedFiles();
if (tracked === null)
  console.log("skipped: words in tracked files, because this is no git checkout");

/**
 * Places on one machine; letters and digits before them mean that they are part of something
 * longer.
 */
const machinePath =
  /(?<![\w./+-])\/(?:work|root|Users)\/[\w.-]|(?<![\w./+-])\/home\/(?!u\b)[\w.-]|(?<![\w./+-])\/tmp\/\w{2}/;
const registryHost =
  /https?:\/\/[^\s"'<>)]*(?:registry|npmjs|pypi|pythonhosted|artifactory|verdaccio|nexus)[^\s"'<>)]*/i;
const soloTest = /\b(?:it|test|describe)(?:\.\w+)*\.only\b/;

describe.skipIf(tracked === null)("tracked text", () => {
  const texts = (tracked ?? [])
    .filter((file) => !/\.(png|pdf|xlsx|docx|woff2?|ttf|gz)$/.test(file))
    .map((file) => ({ file, text: textOf(file) }));
  const hits = (pattern: RegExp, chosen = texts): string[] =>
    chosen.flatMap(({ file, text }) => {
      const found = pattern.exec(text);
      return found === null ? [] : [`${file}: ${found[0]}`];
    });

  it("names no package registry", () => {
    expect(hits(registryHost)).toEqual([]);
    expect(
      hits(
        /"resolved": "[a-z+]+:/,
        texts.filter(({ file }) => file.endsWith("package-lock.json")),
      ),
    ).toEqual([]);
    expect(
      texts
        .filter(({ file }) => file.endsWith(".npmrc"))
        .filter(({ text }) => /registry\s*=/.test(text)),
    ).toEqual([]);
  });
  it("names no path of one machine", () => {
    expect(hits(machinePath)).toEqual([]);
  });
  it("runs no single test in place of all", () => {
    expect(
      hits(
        soloTest,
        texts.filter(({ file }) => /\.test\.ts$/.test(file)),
      ),
    ).toEqual([]);
  });
  it("would be found out", () => {
    expect(machinePath.test(`see ${["", "work", "main"].join("/")}`)).toBe(true);
    expect(machinePath.test(`"${["", "tmp", "abc"].join("/")}"`)).toBe(true);
    expect(machinePath.test("https://example.org/work/home")).toBe(false);
    expect(registryHost.test(["https:/", "registry.example", "pkg.tgz"].join("/"))).toBe(true);
    expect(soloTest.test(["it", "only(1)"].join("."))).toBe(true);
    expect(soloTest.test("options.only")).toBe(false);
  });
});
