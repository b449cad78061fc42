import type { TestTable } from "../dataset";

/**
 * The tests by which an anchorage provision is judged: bars bonded into drilled holes, in arrangements that leave the
 * concrete free to fail. Confined tests reach more bond than an anchor in use, and cast-in bars follow other rules.
 * @example compare(anchorTests(study.data.tests), code("aci318-19"))
 */
export function anchorTests(tests: TestTable): TestTable {
  return tests.where((row) => row.installation === "post_installed" && (row.setup === "unconfined_tension" || row.setup === "direct_shear"));
}
