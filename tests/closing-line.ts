import type { Reporter, TestModule } from "vitest/node";
import { slowestFiles } from "./slowest-files";

/**
 * Ends a run with the slowest files, then one line anyone can read: "N passed, N failed, N
 * skipped".
 */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>, errors: ReadonlyArray<unknown>): void {
    const count = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) count[test.result().state] += 1;
      // A file that cannot even be loaded holds no tests, yet it is a failure.
      if (
        module.state() === "failed" &&
        [...module.children.allTests()].every((t) => t.result().state !== "failed")
      )
        count.failed += 1;
    }
    count.failed += errors.length;
    const skipped = count.skipped + count.pending;
    if (modules.length > 1) process.stdout.write(`\n${slowestFiles(modules)}\n`);
    process.stdout.write(
      `\n${count.passed} passed, ${count.failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}\n`,
    );
  }
}
