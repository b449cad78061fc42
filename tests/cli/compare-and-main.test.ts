import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { answerOf, answersOf, built, type Answer } from "./one-process";

const noTrace = ({ stdout, stderr }: { stdout: string; stderr: string }) =>
  expect(stdout + stderr).not.toMatch(/^\s+at .+:\d+:\d+/m);

const HEADER =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode,cracked";
const good = (id: string, load = "50"): string =>
  `${id},s,a,gfrp,16,post_installed,30,cylinder,128,unconfined_tension,tension,${load},concrete_breakout,no`;

const WRONG = [
  ["nonsense"],
  ["compare"],
  ["compare", "datasets/demo", "--level", "x"],
  ["compare", "datasets/demo", "--codes", "no-such-code"],
  ["compare", "datasets/demo", "--by", "no_such_column"],
  ["compare", "datasets/demo", "--where", "bar_materal == 'gfrp'"],
  ["compare", "datasets/demo", "--code", "aci318-19"],
  ["compare", "no-such-folder"],
  ["check", "no-such-folder"],
];
/** The second of three rows, and the column and value at fault. */
const FAULTY = [
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
] as const;
const DEMO = ["compare", "datasets/demo", "--format"];

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
    let wrong: Answer[] = [];
    let demo: Answer[] = [];
    let faulty: Answer[] = [];
    beforeAll(() => {
      folder = mkdtempSync(join(tmpdir(), "command-line-"));
      const faultyLines = FAULTY.flatMap(([, row], i) => {
        const data = join(folder, String(i));
        mkdirSync(data);
        writeFileSync(
          join(data, "tests.csv"),
          `\uFEFF${[HEADER, good("1"), row, good("3"), ""].join("\r\n")}`,
        );
        writeFileSync(
          join(data, "studies.csv"),
          "study_id,provenance,citation,doi,year,licence,transcription\ns,own,made up for this test,,2026,,supplied\n",
        );
        const asked = ["--codes", "ccd-1995", "--level", "expected", "--format", "json"];
        return [
          ["check", data],
          ["compare", data, ...asked],
        ];
      });
      const demoLines = [
        [...DEMO, "json"],
        [...DEMO, "csv", "--require", "meets"],
        [...DEMO, "csv", "--require", "falls"],
      ];
      const answers = answersOf([...WRONG, ...demoLines, ...faultyLines]);
      wrong = answers.splice(0, WRONG.length);
      demo = answers.splice(0, demoLines.length);
      faulty = answers;
    }, 120_000);
    afterAll(() => rmSync(folder, { recursive: true }));

    it.each(WRONG.map((words, i) => [words.join(" "), i] as const))(
      "invalid input exits with 2 and no stack trace: %s",
      (_words, i) => {
        const result = wrong[i]!;
        expect(result.status).toBe(2);
        expect(result.stderr.length).toBeGreaterThan(10);
        noTrace(result);
      },
    );

    it("ends a process of its own with that code, and the same words", () => {
      const { status, stdout, stderr } = answerOf(...WRONG[1]!);
      expect({ status, stdout, stderr }).toEqual(wrong[1]);
    });

    it("helps", () => {
      const { status, stdout } = answerOf("--help");
      expect(status).toBe(0);
      expect(stdout).toContain("Exit code: 0 done");
    });

    it("gives exactly the promised fields", () => {
      const answer = demo[0]!;
      const {
        groups,
        rows: [rows],
      } = JSON.parse(answer.stdout) as {
        groups: Record<string, unknown>[];
        rows: Rows[];
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
      expect(
        sum([...rows!.rejected, ...rows!.excluded, ...rows!.not_judged, ...rows!.judged]),
      ).toBe(rows!.read);
      // Whatever the comparison finds, 0; 1 only where a verdict was required and not found.
      expect(new Set(groups.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
      expect(demo.map(({ status }) => status)).toEqual([0, 1, 2]);
    });

    it.each(FAULTY.map(([what, , column, value], i) => [what, column, value, i] as const))(
      "%s: file, row, column and value are named, and the good rows go on",
      (_what, column, value, i) => {
        const [check, compare] = [faulty[2 * i]!, faulty[2 * i + 1]!];
        expect([check.status, compare.status]).toEqual([1, 0]);
        for (const text of [check.stdout + check.stderr, compare.stderr]) {
          for (const word of ["tests.csv", "3", column, value, "expected"])
            expect(text).toContain(word);
        }
        const {
          groups,
          rows: [rows],
        } = JSON.parse(compare.stdout) as { groups: { n: number }[]; rows: Rows[] };
        expect(groups.map(({ n }) => n)).toEqual([2]);
        expect([
          rows?.read,
          rows?.rejected.map(({ n }) => n),
          rows?.judged.map(({ n }) => n),
        ]).toEqual([3, [1], [2]]);
        [check, compare].forEach(noTrace);
      },
    );
  },
);
