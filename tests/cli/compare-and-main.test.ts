import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = new URL("../../", import.meta.url).pathname;
const built = existsSync(join(root, "kernel-lib/dist/cli/main.js"));
const run = (...words: string[]) =>
  spawnSync(process.execPath, [join(root, "kernel-lib/bin/code-comparison.js"), ...words], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
const noTrace = ({ stdout, stderr }: { stdout: string; stderr: string }) =>
  expect(stdout + stderr).not.toMatch(/^\s+at .+:\d+:\d+/m);

const HEADER =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode,cracked";
const good = (id: string, load = "50"): string =>
  `${id},s,a,gfrp,16,post_installed,30,cylinder,128,unconfined_tension,tension,${load},concrete_breakout,no`;

interface Rows {
  readonly read: number;
  readonly rejected: readonly { n: number }[];
  readonly excluded: readonly { n: number }[];
  readonly not_judged: readonly { n: number }[];
  readonly judged: readonly { n: number }[];
}

describe.skipIf(!built)(
  `the built command line (${built ? "present" : "kernel-lib/dist is absent, skipped: run npm ci"})`,
  () => {
    let folder = "";
    beforeAll(() => {
      folder = mkdtempSync(join(tmpdir(), "command-line-"));
    });
    afterAll(() => rmSync(folder, { recursive: true }));

    it.each([
      ["nonsense"],
      ["compare"],
      ["compare", "datasets/demo", "--level", "x"],
      ["compare", "datasets/demo", "--code", "no-such-code"],
      ["compare", "datasets/demo", "--by", "no_such_column"],
      ["compare", "no-such-folder"],
      ["check", "no-such-folder"],
    ])("wrong use exits with 2 and no stack trace: %s %s %s %s", (...words) => {
      const result = run(...words.filter((word): word is string => typeof word === "string"));
      expect(result.status).toBe(2);
      expect(result.stderr.length).toBeGreaterThan(10);
      noTrace(result);
    });

    it("helps", () => {
      const { status, stdout } = run("--help");
      expect(status).toBe(0);
      expect(stdout).toContain("Exit code: 0 done");
    });

    it("gives exactly the promised fields", () => {
      const answer = run("compare", "datasets/demo", "--format", "json");
      const { groups, rows } = JSON.parse(answer.stdout) as {
        groups: Record<string, unknown>[];
        rows: Rows;
      };
      expect(answer.status).toBe(0);
      expect(groups.length).toBeGreaterThan(3);
      const promised = [
        "n",
        "n_lower_bounds",
        "series",
        "studies",
        "fractile",
        "lower",
        "upper",
        "as_tested",
        "in_general",
        "verdict",
        "not_judged",
      ];
      for (const group of groups) {
        expect(Object.keys(group)).toEqual(expect.arrayContaining(promised));
        for (const side of ["as_tested", "in_general"])
          expect(Object.keys(group[side] as object)).toEqual(
            expect.arrayContaining(["verdict", "lower", "upper", "reason"]),
          );
        expect(group["verdict"]).toBe((group["in_general"] as { verdict: string }).verdict);
      }
      const sum = (parts: readonly { n: number }[]): number =>
        parts.reduce((total, { n }) => total + n, 0);
      expect(sum([...rows.rejected, ...rows.excluded, ...rows.not_judged, ...rows.judged])).toBe(
        rows.read,
      );
      // Whatever the comparison finds, 0; 1 only where a verdict was required and not found.
      expect(new Set(groups.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
      expect(run("compare", "datasets/demo", "--require", "meets", "--format", "csv").status).toBe(
        1,
      );
      expect(run("compare", "datasets/demo", "--require", "falls", "--format", "csv").status).toBe(
        2,
      );
    });

    it.each([
      ["a text in a number column", good("2", "fifty"), "peak_load_kN", "fifty"],
      ["a negative load", good("2", "-5"), "peak_load_kN", "-5"],
      ["a missing load", good("2", ""), "peak_load_kN", ""],
      ["a duplicate id", good("1"), "test_id", "1"],
      [
        "an unknown mode",
        good("2").replace("concrete_breakout", "exploded"),
        "failure_mode",
        "exploded",
      ],
    ])(
      "%s: file, row, column and value are named, and the good rows go on",
      (_what, row, column, value) => {
        writeFileSync(
          join(folder, "tests.csv"),
          `\uFEFF${[HEADER, good("1"), row, good("3"), ""].join("\r\n")}`,
        );
        writeFileSync(
          join(folder, "studies.csv"),
          "study_id,provenance,citation,doi,year,licence,transcription\ns,own,made up for this test,,2026,,supplied\n",
        );
        const [check, compare] = [
          run("check", folder),
          run("compare", folder, "--code", "ccd-1995", "--level", "expected", "--format", "json"),
        ];
        expect([check.status, compare.status]).toEqual([1, 0]);
        for (const text of [check.stdout + check.stderr, compare.stderr]) {
          for (const word of ["tests.csv", "3", column, value, "expected"])
            expect(text).toContain(word);
        }
        const { groups, rows } = JSON.parse(compare.stdout) as {
          groups: { n: number }[];
          rows: { read: number; rejected: { n: number }[]; judged: { n: number }[] };
        };
        expect(groups.map(({ n }) => n)).toEqual([2]);
        expect([rows.read, rows.rejected.map(({ n }) => n), rows.judged.map(({ n }) => n)]).toEqual(
          [3, [1], [2]],
        );
        [check, compare].forEach(noTrace);
      },
    );
  },
);
