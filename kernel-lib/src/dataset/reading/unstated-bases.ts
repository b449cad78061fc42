import { diagnostic, type Diagnostic } from "../diagnostics";
import type { TestTable } from "../table/test-table";

/**
 * One finding a file for strengths whose specimen is not stated: what that means, and how to say
 * it.
 */
export function unstatedBases(tests: TestTable): Diagnostic[] {
  const counts = new Map<string, number>();
  for (const [i, basis] of tests.texts("concrete_strength_basis").entries()) {
    if (basis !== "unknown" && basis !== "cylinder_assumed") continue;
    const key = `${basis}\u0000${tests.source(i)?.file ?? ""}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts].map(([key, n]) => {
    const [basis = "", file = ""] = key.split("\u0000");
    const rows = `${file}: ${String(n)} ${n === 1 ? "row" : "rows"}`;
    return basis === "unknown"
      ? diagnostic(
          "information",
          "unknown-strength-basis",
          `${rows} with concrete_strength_basis unknown: no capacity that needs the concrete strength is predicted; find out the specimen, or write cylinder_assumed to take it knowingly for a cylinder (a cube's would be up to 22 % less)`,
          {
            file,
            column: "concrete_strength_basis",
            value: basis,
            expected: "the specimen the strength was measured on",
          },
        )
      : diagnostic(
          "information",
          "assumed-strength-basis",
          `${rows} with concrete_strength_basis cylinder_assumed: the strength counts as a cylinder's; a cube's would be up to 22 % less, and the ratios so much the larger as the code's exponent makes of it`,
          {
            file,
            column: "concrete_strength_basis",
            value: basis,
            expected: "the specimen the strength was measured on",
          },
        );
  });
}
