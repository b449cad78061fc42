import { dirname } from "node:path";
import { expect, test } from "vitest";
import { reviewNotebooks } from "../../kernel-lib/src/notebook";
import type { ReviewProgress } from "../../kernel-lib/src/notebook";
import { inOrder, severalAtATime } from "../../kernel-lib/src/notebook/run";
import { fixtureCopy } from "./notebook-in-scratch";

test("what several works tell comes in their order, whichever ends first", () => {
  const told: string[] = [];
  const order = inOrder<string>(3, (text) => void told.push(text));
  order.of(1)("b1");
  order.of(2)("c1");
  order.finish(2);
  order.of(0)("a1");
  order.of(1)("b2");
  expect(told).toEqual(["a1"]);
  order.of(0)("a2");
  order.finish(0);
  order.of(1)("b3");
  expect(told).toEqual(["a1", "a2", "b1", "b2", "b3"]);
  order.finish(1);
  expect(told).toEqual(["a1", "a2", "b1", "b2", "b3", "c1"]);
});

test("as many works as allowed go on at a time, each once, and none begins after a stop", async () => {
  let [now, most, stopped] = [0, 0, false];
  const begun: number[] = [];
  await severalAtATime(
    9,
    2,
    async (index) => {
      begun.push(index);
      most = Math.max(most, ++now);
      await new Promise((later) => setTimeout(later, index === 0 ? 30 : 5));
      now -= 1;
      stopped ||= index === 6;
    },
    () => stopped,
  );
  expect(most).toBe(2);
  expect(begun).toEqual([0, 1, 2, 3, 4, 5, 6].concat(begun.includes(7) ? [7] : []));
});

test(
  "two notebooks at a time: the same verdicts as one by one, told in the order of the files",
  { timeout: 120_000 },
  async () => {
    const files = [fixtureCopy("changed-number"), fixtureCopy("not-recorded"), fixtureCopy("same")];
    const told: string[] = [];
    const tell = (progress: ReviewProgress): void =>
      void told.push(`${files.indexOf(progress.file)} ${progress.kind}`);
    const reviews = await reviewNotebooks(files, { jobs: 2, inputs: [], onProgress: tell });
    expect(reviews.map(({ cells }) => cells.map(({ verdict }) => verdict))).toEqual([
      ["same", "changed", "same", "same"],
      ["not_recorded"],
      ["same", "same", "same", "same"],
    ]);
    const whole = (index: number, cells: number): string[] => [
      `${index} notebook-started`,
      ...Array.from({ length: cells }, () => `${index} cell-reviewed`),
      `${index} notebook-reviewed`,
    ];
    expect(told).toEqual([...whole(0, 4), ...whole(1, 1), ...whole(2, 4)]);
    expect(new Set(files.map((file) => dirname(file))).size).toBe(3);
  },
);
