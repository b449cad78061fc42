import { Specimens, type TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import { detailChecks } from "../model/detail-checks";
import type { PredictionSettings } from "../model/predict";
import { writtenNumber } from "./written-number";

/** One rule on spacing, edge distance or thickness, judged for one test. */
export interface PlacingLine {
  readonly verdict: string;
  readonly clause: string;
  readonly says: string;
}

/**
 * How the bars of one test are placed by the rules of a code, apart from any capacity; rules that
 * do not concern the test are left out. Empty for a code without such rules.
 */
export function placingOf(
  code: CodeDefinition,
  tests: TestColumns,
  i: number,
  settings: PredictionSettings = {},
): PlacingLine[] {
  const specimens = new Specimens(tests, settings.level ?? "nominal", settings.readings ?? {});
  const mm = (value: number): string => `${writtenNumber(value)} mm`;
  return detailChecks(code, code.checks ?? [], specimens, i, settings.options)
    .filter(({ verdict }) => verdict !== "does not concern")
    .map(({ check, verdict, value_mm, least_mm }) => ({
      verdict,
      clause: check.clause,
      says: `${check.says}; here ${mm(value_mm)}, at least ${mm(least_mm)}`,
    }));
}
