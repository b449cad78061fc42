import { describe, expect, it } from "vitest";
import { code, developmentLength, developmentLengthRule } from "../../kernel-lib/src/provisions";
import { provisionChecks } from "./check-index";
import { steps } from "./specimens";
import { BY_HAND } from "./worked/by-hand";
import { WORKED_LENGTHS } from "./worked/lengths";
import { WORKED_RULES } from "./worked/rules";
import { SHEET_CAPACITIES } from "./worked/sheet-capacities";

// Each case says what it is worth: published, constructed (computed apart from this code), or from
// memory.
describe("worked capacities", () => {
  it.each(
    [...SHEET_CAPACITIES, ...BY_HAND].map(
      (one) =>
        [
          `${one.id}, ${one.kind}: ${one.code}, ${one.provision} ${JSON.stringify(one.options ?? {})}`,
          one,
        ] as const,
    ),
  )("%s", (_, one) => {
    const found = steps(code(one.code), one.provision, one.row, {
      level: one.level ?? "nominal",
      options: one.options ?? {},
    });
    for (const [symbol, [value, within]] of Object.entries(one.expected))
      expect(
        Math.abs((found[symbol] ?? NaN) - value),
        `${symbol} ${found[symbol] ?? NaN}, expected ${value}`,
      ).toBeLessThanOrEqual(within);
  });
});

describe("worked lengths", () => {
  it.each(
    WORKED_LENGTHS.map(
      (one) =>
        [`${one.id}, ${one.kind}: ${one.rule} ${JSON.stringify(one.options ?? {})}`, one] as const,
    ),
  )("%s", (_, { rule, given, options, length: [value, within] }) => {
    expect(
      Math.abs(developmentLength(developmentLengthRule(rule), given, options).length_mm - value),
    ).toBeLessThanOrEqual(within);
  });
});

describe("interactions, placing rules, lookups and functions", () => {
  it.each(WORKED_RULES.map((one) => [`${one.key}, ${one.kind}: ${one.what}`, one] as const))(
    "%s",
    (_, { found, expected, within = 0 }) => {
      const value = found();
      if (typeof expected === "string") expect(value).toBe(expected);
      else
        expect(
          Math.abs(Number(value) - expected),
          `${String(value)}, expected ${expected}`,
        ).toBeLessThanOrEqual(within);
    },
  );

  it("are all known to the index", () => {
    const known = Object.keys(provisionChecks());
    expect(WORKED_RULES.map(({ key }) => key).filter((key) => !known.includes(key))).toEqual([]);
  });
});
