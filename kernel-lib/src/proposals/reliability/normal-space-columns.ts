import { exponentialColumn } from "./exponential-column";
import { normalSpaceVariable, type NormalSpaceVariable } from "./standard-normal-space";
import type { Distribution } from "../../statistics";

/**
 * A marginal's transformation as plain numbers, so that a thread can be given it: x of v = u −
 * centre, the distance from the point drawn about. `table`: values and slopes dx/dv at evenly
 * spaced v from `from`, `perUnit` of them to a unit.
 */
export type NormalSpaceColumn =
  | {
      readonly form: "straight" | "straight in logarithm";
      readonly at0: number;
      readonly slope: number;
    }
  | {
      readonly form: "table";
      readonly from: number;
      readonly perUnit: number;
      readonly values: Float64Array;
      readonly slopes: Float64Array;
    };

/**
 * Cells a unit of u: the cubic between nodes then errs by some 1e-11 of the SD for a smooth
 * marginal.
 */
const PER_UNIT = 128;
/** No normal number of 52 bits lies farther out than 13.6. */
const REACH = 14;
const AGREEMENT = 1e-8;

/**
 * The transformation of a marginal for draws about `centre`; null where the marginal has a kink
 * that a smooth table would not follow to 1e-8 of its SD (then it is transformed number by number).
 */
export function normalSpaceColumn(
  marginal: Distribution,
  centre: number,
): NormalSpaceColumn | null {
  const variable = normalSpaceVariable(marginal);
  if (variable.line && (variable.form === "straight" || variable.form === "straight in logarithm"))
    return {
      form: variable.form,
      at0: variable.line.at0 + variable.line.slope * centre,
      slope: variable.line.slope,
    };
  const count = 2 * REACH * PER_UNIT + 1;
  const values = new Float64Array(count);
  const slopes = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const u = centre - REACH + k / PER_UNIT;
    values[k] = variable.x(u);
    slopes[k] = variable.slope(u, values[k] as number);
  }
  const table: NormalSpaceColumn = {
    form: "table",
    from: -REACH,
    perUnit: PER_UNIT,
    values,
    slopes,
  };
  return follows(table, variable, centre) ? table : null;
}

/**
 * Compares table and marginal between nodes within six units of the centre, beyond which hardly a
 * draw falls.
 */
function follows(table: NormalSpaceColumn, variable: NormalSpaceVariable, centre: number): boolean {
  const u = Float64Array.from(
    { length: 6 * PER_UNIT },
    (_, k) => centre - 6 + (2 * k + 0.37) / PER_UNIT,
  );
  const x = new Float64Array(u.length);
  transformColumn(
    table,
    u.map((at) => at - centre),
    x,
  );
  const scale = variable.slope(0, variable.x(0)) || 1;
  return u.every(
    (at, k) =>
      Math.abs((x[k] as number) - variable.x(at)) <= AGREEMENT * (scale + Math.abs(x[k] as number)),
  );
}

/** x of a whole column of v. */
export function transformColumn(column: NormalSpaceColumn, v: Float64Array, x: Float64Array): void {
  const n = v.length;
  if (column.form === "table") {
    const { from, perUnit, values, slopes } = column;
    const h = 1 / perUnit;
    for (let i = 0; i < n; i++) {
      const at = ((v[i] as number) - from) * perUnit;
      const k = Math.min(values.length - 2, Math.max(0, Math.floor(at)));
      const t = at - k;
      const s = 1 - t;
      const [a, b, da, db] = [
        values[k] as number,
        values[k + 1] as number,
        (slopes[k] as number) * h,
        (slopes[k + 1] as number) * h,
      ];
      x[i] = s * s * ((1 + 2 * t) * a + t * da) + t * t * ((3 - 2 * t) * b - s * db);
    }
    return;
  }
  const { at0, slope } = column;
  if (column.form === "straight") for (let i = 0; i < n; i++) x[i] = at0 + slope * (v[i] as number);
  else exponentialColumn(at0, slope, REACH, v, x);
}
