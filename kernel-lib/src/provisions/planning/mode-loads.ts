import type { TestColumns } from "../inputs/prepare";
import { VariedRow, type Changes } from "../inputs/varied-row";
import type { CodeDefinition } from "../model/definition";
import type { FailureMode, Level } from "../model/levels";
import {
  predict,
  type CodePrediction,
  type PredictionSettings,
  type ProvisionColumn,
} from "../model/predict";
import { clauseOf, reasonsAt } from "../model/reasons";
import { testReaches } from "../model/setup-modes";

/** How a planned test is predicted: one code, or several whose modes are taken together. */
export interface PlanningSettings {
  readonly level?: Level;
  /** Options of the codes; each code takes those it offers. */
  readonly options?: Readonly<Record<string, number>>;
  readonly readings?: PredictionSettings["readings"];
  /**
   * Load at which the grip of the testing machine breaks the bar or slips, N; without it no such
   * limit.
   */
  readonly gripLoad_N?: number;
}

/**
 * A load that may end the test: a capacity of a provision, or a limit of the bar or its grip that
 * no provision states.
 */
export interface ModeLoad {
  readonly mode: FailureMode | "grip";
  readonly modes: readonly (FailureMode | "grip")[];
  readonly label: string;
  /** One load for each repeat of the row, N; NaN where it does not apply. */
  readonly load: Float64Array;
  readonly source: { readonly prediction: CodePrediction; readonly column: ProvisionColumn } | null;
}

/** Every load that may end a test, and what could not be judged for want of a value. */
export interface ModeLoads {
  readonly loads: readonly ModeLoad[];
  readonly unjudged: readonly string[];
}

/**
 * The loads that may end the test of one row, repeated `n` times with changes: each capacity that
 * the test can reach and, in tension, what no code states: rupture of the bar (area times strength)
 * unless a provision has it, its yield (area times yield strength) where the row states one, and
 * the grip's limit where given.
 */
export function modeLoads(
  codes: readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  changes: Changes,
  n: number,
  settings: PlanningSettings,
): ModeLoads {
  const row = new VariedRow(tests, i, changes, n);
  const [action, setup] = [row.texts("action")[0] ?? null, row.texts("setup")[0] ?? null];
  const unjudged: string[] = [];
  const loads = codes.flatMap((code) => {
    const prediction = predict(code, row, settingsOf(code, settings));
    return prediction.columns
      .filter(({ provision }) => testReaches(action, setup, provision))
      .flatMap((column): ModeLoad[] => {
        const { provision, capacity } = column;
        // A provision whose limits leave the row out anyway is not missed.
        const onlyMissing = (k: number): string[] => {
          const reasons = reasonsAt(prediction, column, k);
          return reasons.every(({ kind }) => kind === "missing")
            ? reasons.map(({ says }) => says)
            : [];
        };
        const lacking = capacity.findIndex(
          (value, k) => Number.isNaN(value) && onlyMissing(k).length > 0,
        );
        if (lacking >= 0)
          unjudged.push(
            `${label(provision.modes[0], provision.id)}: ${onlyMissing(lacking).join("; ")}`,
          );
        return capacity.every(Number.isNaN)
          ? []
          : [
              {
                mode: provision.modes[0],
                modes: provision.modes,
                label: label(provision.modes[0], provision.id),
                load: capacity,
                source: { prediction, column },
              },
            ];
      });
  });
  return { loads: [...loads, ...barLimits(codes, row, settings, loads)], unjudged };
}

/** The options that a code offers, of those asked for. */
export function settingsOf(
  code: CodeDefinition,
  { level, options, readings }: PlanningSettings,
): PredictionSettings {
  const offered = Object.entries(options ?? {}).filter(([name]) =>
    Object.hasOwn(code.options, name),
  );
  return {
    ...(level === undefined ? {} : { level }),
    ...(readings === undefined ? {} : { readings }),
    options: Object.fromEntries(offered),
  };
}

function label(mode: string, id: string): string {
  return `${mode.replaceAll("_", " ")} (${id.slice(0, id.indexOf("/"))} ${clauseOf(id)})`;
}

function barLimits(
  codes: readonly CodeDefinition[],
  row: VariedRow,
  settings: PlanningSettings,
  loads: readonly ModeLoad[],
): ModeLoad[] {
  const found: ModeLoad[] = [];
  const add = (mode: ModeLoad["mode"], words: string, load: Float64Array): void =>
    void (
      load.every(Number.isNaN) ||
      found.push({ mode, modes: [mode], label: words, load, source: null })
    );
  if (row.texts("action")[0] === "tension" && codes.length > 0) {
    const { specimens } = predict(
      { ...(codes[0] as CodeDefinition), provisions: [] },
      row,
      settingsOf(codes[0] as CodeDefinition, settings),
    );
    const barForce = (strength: "f_u" | "f_y"): Float64Array =>
      Float64Array.from(
        { length: row.length },
        (_, k) =>
          specimens.value("n_x", k) *
          specimens.value("n_y", k) *
          specimens.value("A_b", k) *
          specimens.value(strength, k),
      );
    if (!loads.some(({ modes }) => modes.includes("bar_rupture")))
      add("bar_rupture", "bar rupture (area times strength, no code equation)", barForce("f_u"));
    add("yield", "yield of the bar (area times yield strength, no code equation)", barForce("f_y"));
  }
  if (settings.gripLoad_N !== undefined)
    add("grip", "limit of the grip", new Float64Array(row.length).fill(settings.gripLoad_N));
  return found;
}
