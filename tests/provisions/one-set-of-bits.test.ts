import { describe, expect, it } from "vitest";
import {
  CODES,
  governing,
  predict,
  symbolsRead,
  trace,
  type Level,
  type PredictionSettings,
} from "../../kernel-lib/src/provisions";
import { randomRows, table } from "./specimens";

const LEVELS: readonly Level[] = ["expected", "nominal", "design"];
const mixed = table(...randomRows(7, 500));
// The same geometry in every row lets the column loop fold most of a formula away.
const alike = table(
  ...randomRows(8, 1, 0).flatMap((row) =>
    [20, 30, 40].map((concrete_strength_MPa) => ({
      ...row,
      concrete_strength_MPa,
      concrete_strength_basis: "cylinder" as const,
    })),
  ),
);
const long = table(...randomRows(10, 3_003));
const pulled = table(
  ...randomRows(11, 1_501).map((row) => ({
    ...row,
    action: "tension" as const,
    setup: "unconfined_tension" as const,
  })),
);
const halves = [0, 1].map((half) =>
  Array.from({ length: long.length }, (_, i) => i).filter(
    (i) => i < long.length / 2 === (half === 0),
  ),
);

describe.each(CODES.map((code) => [code.id, code] as const))("%s", (_, code) => {
  it.each(LEVELS)(
    "the hand calculation ends on the very value of the column, at level %s",
    (level) => {
      let stated = 0;
      for (const tests of [mixed, alike]) {
        const prediction = predict(code, tests, { level });
        for (const { provision, capacity } of prediction.columns) {
          for (let i = 0; i < tests.length; i++) {
            const byHand = trace(code, provision, tests, i, { level });
            if (!Object.is(byHand.capacity_N, capacity[i]))
              expect.fail(
                `${provision.id} row ${i}: ${byHand.capacity_N} by hand, ${capacity[i] ?? NaN} in the column`,
              );
            if (!Number.isNaN(byHand.capacity_N)) {
              stated += 1;
              const [part] = byHand.parts;
              const last = part?.steps
                .filter(
                  ({ symbol }) => symbol === provision.capacity || symbol === "design_capacity",
                )
                .at(-1);
              if (byHand.parts.length === 1 && !Object.is(last?.value, part?.capacity))
                expect.fail(
                  `${provision.id} row ${i}: the last step is ${last?.value}, the capacity ${part?.capacity}`,
                );
            }
          }
        }
      }
      const covered = code.provisions.some((provision) => provision.levels.includes(level));
      expect(stated > 0).toBe(covered);
    },
    120_000,
  );

  it("holds under every option, too", () => {
    const tests = table(...randomRows(9, 60));
    for (const [name, option] of Object.entries(code.options)) {
      const settings: PredictionSettings = { options: { [name]: option.value === 0 ? 1 : 0 } };
      for (const { provision, capacity } of predict(code, tests, settings).columns) {
        for (let i = 0; i < tests.length; i++) {
          const byHand = trace(code, provision, tests, i, settings).capacity_N;
          if (!Object.is(byHand, capacity[i]))
            expect.fail(
              `${provision.id} ${name} row ${i}: ${byHand} by hand, ${capacity[i] ?? NaN} in the column`,
            );
        }
      }
    }
  });

  it.each(LEVELS)(
    "long tables get the very values and flags of short ones, at level %s",
    (level) => {
      const whole = predict(code, long, { level });
      const least = governing(whole);
      for (const rows of halves) {
        const part = predict(code, long.select(rows), { level });
        const leastOfPart = governing(part);
        whole.columns.forEach(({ provision, capacity, flags }, k) => {
          rows.forEach((row, i) => {
            if (
              !Object.is(part.columns[k]?.capacity[i], capacity[row]) ||
              part.columns[k]?.flags[i] !== flags[row]
            )
              expect.fail(
                `${provision.id} row ${row}: ${capacity[row] ?? NaN} with flags ${flags[row] ?? NaN}, in a short table ${part.columns[k]?.capacity[i] ?? NaN} with ${part.columns[k]?.flags[i] ?? NaN}`,
              );
          });
        });
        expect(
          rows.findIndex(
            (row, i) =>
              !Object.is(least.capacity[row], leastOfPart.capacity[i]) ||
              least.column[row] !== leastOfPart.column[i],
          ),
        ).toBe(-1);
      }
    },
  );

  it("governing capacities of long tables alike in action and arrangement are those of short ones", () => {
    const level =
      LEVELS.find((each) => code.provisions.some(({ levels }) => levels.includes(each))) ??
      "nominal";
    const whole = governing(predict(code, pulled, { level }));
    const rows = Array.from({ length: 900 }, (_, i) => 1_500 - i);
    const part = governing(predict(code, pulled.select(rows), { level }));
    expect(rows.map((row) => [whole.capacity[row], whole.column[row]])).toEqual(
      rows.map((_, i) => [part.capacity[i], part.column[i]]),
    );
  });

  it("defines every symbol it reads and never states a capacity below zero, infinite or without a number", () => {
    for (const provision of code.provisions)
      expect(symbolsRead(code, provision).length).toBeGreaterThan(0);
    for (const level of LEVELS) {
      const prediction = predict(code, mixed, { level });
      for (const { provision, capacity, flags } of prediction.columns) {
        capacity.forEach((value, i) => {
          if (Number.isNaN(value) && flags[i] === 0)
            expect.fail(`${provision.id} row ${i} withheld without a reason`);
          if (!Number.isNaN(value) && !(value > 0 && Number.isFinite(value)))
            expect.fail(`${provision.id} row ${i}: ${value}`);
        });
      }
    }
  });
});
