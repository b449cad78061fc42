import { describe, expect, it } from "vitest";
import { noFailureBound } from "../../../kernel-lib/src/statistics";
import { createRandom } from "../../../kernel-lib/src/statistics/random";

describe("a fractile bounded by tests without a failure", () => {
  const reached = Array.from({ length: 50 }, (_, i) => 0.01 * (i + 1));
  it("takes the value that 45 tests reached: 0.95^45 = 0.0994, 0.95^44 = 0.1047", () => {
    const found = noFailureBound(reached);
    expect(found).toMatchObject({ status: "ok", value: 0.06, reached: 45, n: 50 });
  });
  it("needs 45 tests, 22 for 10 % at 90 %", () => {
    expect(noFailureBound(reached.slice(0, 44))).toMatchObject({
      status: "cannot be estimated",
      reason: "too few values",
    });
    expect(noFailureBound(reached.slice(0, 22), { fractile: 0.1 })).toMatchObject({
      status: "ok",
      value: 0.01,
    });
  });
  it("is wrong no more often than it says: 45 tests stopped at the 5 % fractile run without failure in 9.9 %", () => {
    const random = createRandom("success run");
    const runs = Array.from({ length: 20000 }, () =>
      Array.from({ length: 45 }, () => random.uniform()).every((u) => u > 0.05),
    );
    expect(runs.filter(Boolean).length / 20000).toBeLessThan(0.1);
    expect(runs.filter(Boolean).length / 20000).toBeGreaterThan(0.09);
  });
});
