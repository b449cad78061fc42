import { describe, expect, test } from "vitest";
import { compareOutputs } from "../../kernel-lib/src/notebook";
import { randomOutputs, randomStream } from "./random-outputs";

const ROUNDS = 300;
const copy = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

describe("laws of the comparison, over random outputs", () => {
  test("an output compared with itself is the same, at any tolerance", () => {
    const random = randomStream(11);
    for (let round = 0; round < ROUNDS; round++) {
      const { outputs } = randomOutputs(random);
      const { verdict, differences } = compareOutputs(outputs, copy(outputs), round % 2 ? 0 : 1e-9);
      expect({ verdict, differences }).toEqual({ verdict: "same", differences: [] });
    }
  });

  test("one number moved by more than the tolerance and 1e-12 of its column is changed, and its place is named; by less it is within tolerance", () => {
    const random = randomStream(12);
    let [moved, rounded] = [0, 0];
    for (let round = 0; round < ROUNDS; round++) {
      const { outputs, numbers } = randomOutputs(random);
      const chosen = numbers[Math.floor(random() * numbers.length)]!;
      const before = chosen.get();
      if (before === 0) continue;
      moved++;
      const tolerance = 10 ** -(2 + random() * 8);
      const recorded = copy(outputs);
      chosen.set(before * (1 + 3 * tolerance));
      const changed = compareOutputs(recorded, outputs, tolerance);
      const size = Math.max(0, Math.abs(before), ...chosen.column().map(Math.abs));
      const rounding =
        chosen.column().length > 0 && 3 * tolerance * Math.abs(before) <= 1e-12 * size;
      if (rounding) rounded++;
      expect(changed.verdict).toBe(rounding ? "within_tolerance" : "changed");
      expect(changed.differences).toHaveLength(1);
      for (const name of chosen.names) expect(changed.differences[0]?.where).toContain(name);
      expect(changed.differences[0]).toMatchObject({
        recorded: String(before),
        rerun: String(chosen.get()),
      });
      chosen.set(before * (1 + tolerance / 3));
      const within = compareOutputs(recorded, outputs, tolerance);
      expect(within.verdict).toBe("within_tolerance");
      for (const name of chosen.names) expect(within.largest?.where).toContain(name);
    }
    expect(moved).toBeGreaterThan(ROUNDS * 0.9);
    expect(rounded).toBeGreaterThan(0);
    expect(rounded).toBeLessThan(ROUNDS * 0.3);
  });

  test("verdict and number of differences do not depend on which side is the recorded one", () => {
    const random = randomStream(13);
    for (let round = 0; round < ROUNDS; round++) {
      const { outputs, numbers } = randomOutputs(random);
      const recorded = copy(outputs);
      for (const { get, set } of numbers.filter(() => random() < 0.3))
        set(get() * (1 + (random() - 0.5) * 4e-9));
      const [there, back] = [
        compareOutputs(recorded, outputs, 1e-9),
        compareOutputs(outputs, recorded, 1e-9),
      ];
      expect([back.verdict, back.differences.length, back.largest?.relative]).toEqual([
        there.verdict,
        there.differences.length,
        there.largest?.relative,
      ]);
    }
  });

  test("an output more or less is one difference for itself, wherever it stands", () => {
    const random = randomStream(14);
    for (let round = 0; round < ROUNDS; round++) {
      const { outputs } = randomOutputs(random);
      const extra = {
        output_type: "error" as const,
        ename: "RangeError",
        evalue: "extra",
        traceback: [],
      };
      const at = Math.floor(random() * (outputs.length + 1));
      // Two neighbouring streams of one name are one text; an output set between them parts them.
      const parts =
        outputs[at - 1]?.output_type === "stream" &&
        outputs[at]?.output_type === "stream" &&
        (outputs[at] as { name: string }).name === (outputs[at - 1] as { name: string }).name;
      if (parts) continue;
      const longer = [...outputs.slice(0, at), extra, ...outputs.slice(at)];
      expect(compareOutputs(outputs, longer, 0).differences).toMatchObject([
        { recorded: "(none)", rerun: "error RangeError: extra" },
      ]);
      expect(compareOutputs(longer, outputs, 0).differences).toMatchObject([
        { recorded: "error RangeError: extra", rerun: "(none)" },
      ]);
    }
  });

  test("a line more or less is one difference for itself, wherever it stands", () => {
    const random = randomStream(15);
    const stream = (lines: string[]) => [
      {
        output_type: "stream" as const,
        name: "stdout",
        text: lines.map((line) => `${line}\n`).join(""),
      },
    ];
    for (let round = 0; round < ROUNDS; round++) {
      const lines = Array.from(
        { length: 1 + Math.floor(random() * 20) },
        (_, index) => `group ${String.fromCharCode(97 + index)} has a ratio of ${random()}`,
      );
      const at = Math.floor(random() * (lines.length + 1));
      const longer = [...lines.slice(0, at), "one more", ...lines.slice(at)];
      expect(compareOutputs(stream(lines), stream(longer), 0).differences).toMatchObject([
        { recorded: "(no such line)", rerun: "one more", place: { output: 1, rerunLine: at + 1 } },
      ]);
      expect(compareOutputs(stream(longer), stream(lines), 0).differences).toMatchObject([
        {
          recorded: "one more",
          rerun: "(no such line)",
          place: { output: 1, recordedLine: at + 1 },
        },
      ]);
    }
  });
});
