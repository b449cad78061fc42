/** A scale with its ticks, shared by all drawings of a column. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

const WIDTH = 380;

/** A scale that holds all values, its ticks on round numbers. */
export function scaleFor(values: readonly (number | null)[], step: number): Scale {
  const known = values.filter((one): one is number => one !== null && Number.isFinite(one));
  const from = Math.floor(Math.min(...known, Infinity) / step - 0.25) * step;
  const to = Math.ceil(Math.max(...known, -Infinity) / step + 0.25) * step;
  const [low, high] = known.length === 0 ? [0, 1] : [from, to];
  const every = step * Math.max(1, Math.ceil((high - low) / step / 5));
  const ticks: number[] = [];
  for (let k = Math.ceil(low / every); k * every <= high + 1e-9; k++)
    ticks.push(Number((k * every).toPrecision(6)));
  return { from: low, to: high, ticks };
}

const at = ({ from, to }: Scale, value: number): string =>
  ((WIDTH * (value - from)) / (to - from)).toFixed(1);

const line = (d: string, width: number, more = ""): string =>
  `<path d="${d}" fill="none" stroke="#000" stroke-width="${width}"${more}/>`;

/** Estimate and bounds of a fractile, the line at 1, what is proposed and what a study less requires. */
export function fractileDrawing(
  scale: Scale,
  one: {
    readonly label: string;
    readonly estimate: number | null;
    readonly lower: number | null;
    readonly upper: number | null;
    readonly proposed: number | null;
    readonly withoutWorst: number | null;
  },
): string {
  const x = (value: number): string => at(scale, value);
  const { label, estimate, lower, upper, proposed, withoutWorst } = one;
  const parts = [line(`M${x(1)} 0V50`, 2.5)];
  if (proposed !== null) parts.push(line(`M${x(proposed)} 0V50`, 2.5, ' stroke-dasharray="8 6"'));
  if (lower !== null && upper !== null)
    parts.push(
      line(`M${x(lower)} 25H${x(upper)}`, 6),
      line(`M${x(lower)} 12V38M${x(upper)} 12V38`, 5),
    );
  if (estimate !== null) parts.push(`<circle cx="${x(estimate)}" cy="25" r="10"/>`);
  if (withoutWorst !== null) {
    const c = Number(x(withoutWorst));
    parts.push(line(`M${c - 9} 16L${c + 9} 34M${c - 9} 34L${c + 9} 16`, 4));
  }
  const digits = (value: number | null): string => value?.toFixed(2) ?? "not estimated";
  return svg(
    50,
    `${label}: estimate ${digits(estimate)}, bounds ${digits(lower)} and ${digits(upper)}${proposed === null ? "" : `, proposed ${digits(proposed)}`}${withoutWorst === null ? "" : `, without the worst study ${digits(withoutWorst)}`}`,
    parts,
  );
}

/** Index before (open) and after (full) with the target. */
export function indexDrawing(
  scale: Scale,
  label: string,
  before: number | null,
  after: number | null,
  target: number,
): string {
  const x = (value: number): string => at(scale, value);
  const parts = [line(`M${x(target)} 0V46`, 2.5, ' stroke-dasharray="8 6"')];
  if (before !== null && after !== null && Math.abs(after - before) > 0.05)
    parts.push(line(`M${x(before)} 23H${x(after)}`, 3));
  if (after !== null && after !== before) parts.push(`<circle cx="${x(after)}" cy="23" r="10"/>`);
  if (before !== null)
    parts.push(
      `<circle cx="${x(before)}" cy="23" r="9" fill="#fff" stroke="#000" stroke-width="3"/>`,
    );
  return svg(
    46,
    `${label}: index ${before?.toFixed(2) ?? "not estimated"} before, ${after?.toFixed(2) ?? "not estimated"} after, target ${target}`,
    parts,
  );
}

/** The scale below the drawings of a column. */
export function scaleDrawing(scale: Scale, label: string, digits: number): string {
  const x = (value: number): string => at(scale, value);
  return svg(42, `Scale of the ${label} from ${scale.from} to ${scale.to}`, [
    line("M0 3H380", 2.5),
    ...scale.ticks.map(
      (tick) =>
        `${line(`M${x(tick)} 3V11`, 2.5)}<text x="${x(tick)}" y="36" font-size="28.5" text-anchor="middle">${tick.toFixed(digits)}</text>`,
    ),
  ]);
}

function svg(height: number, label: string, parts: readonly string[]): string {
  return `<svg viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="${label}">${parts.join("")}</svg>`;
}
