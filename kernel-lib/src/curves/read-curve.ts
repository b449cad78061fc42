import { basename } from "node:path";
import { splitColumnName, unitDimension, unitFactor } from "../units";
import { decodeText } from "../dataset/reading/decode-text";
import { detectDelimiter, firstRecords, visitRecords } from "../dataset/reading/delimited-text";
import { diagnostic, shortened, type Diagnostic } from "../dataset/diagnostics";
import { detectDecimal, readNumber, type DecimalSign } from "../dataset/reading/number-cells";
import { numberHint } from "../dataset/reading/number-hints";
import { readBytes, sha256 } from "../dataset/reading/file-bytes";
import type { GaugePlace, LoadCurve } from "./curve";

/** A logger file as read; `curve` is null when it cannot be used. */
export interface CurveReading {
  readonly curve: LoadCurve | null;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
  readonly sha256: string;
}

type Role = {
  readonly kind: "time" | "load" | "gauge";
  readonly name: string;
  readonly factor: number;
  readonly index: number;
};

/**
 * Reads a logger file: one header line, with unit in each name or below it; one column of force,
 * one or more of length, perhaps one of time. Gauges are placed by "free" or "loaded" in their
 * name.
 * @throws DatasetError when the file cannot be opened.
 */
export async function readCurve(file: string): Promise<CurveReading> {
  return parseCurve(await readBytes(file, file), basename(file));
}

/** The same for bytes already at hand. */
export function parseCurve(bytes: Uint8Array, file: string): CurveReading {
  const { text, diagnostics: decoding } = decodeText(bytes, file);
  const found: Diagnostic[] = [...decoding];
  const done = (curve: LoadCurve | null): CurveReading => ({
    curve,
    diagnostics: found,
    sha256: sha256(bytes),
  });
  const fail = (rule: string, what: string, expected: string): CurveReading => {
    found.push(
      diagnostic("error", rule, `${file} ${what}, expected ${expected}`, { file, expected }),
    );
    return done(null);
  };
  if (decoding.some(({ severity }) => severity === "error")) return done(null);
  const delimiter = detectDelimiter(text);
  const sample = firstRecords(text, delimiter, 60);
  // Loggers write some lines about themselves first: the header is the first line with a force and
  // a length.
  const headerAt = sample.findIndex((cells, i) =>
    rolesOf(cells, sample[i + 1] ?? []).some(({ kind }) => kind === "load"),
  );
  const roles = headerAt === -1 ? [] : rolesOf(sample[headerAt] ?? [], sample[headerAt + 1] ?? []);
  const loads = roles.filter(({ kind }) => kind === "load");
  const gauges = roles.filter(({ kind }) => kind === "gauge");
  if (text.trim() === "") return fail("empty-file", "is empty", "a header and readings");
  if (loads.length !== 1)
    return fail(
      "no-load-column",
      `has ${String(loads.length)} columns of force (${loads.length === 0 ? `row 1 reads ${quoted(sample[0] ?? [])}` : quoted(loads.map(({ name }) => name))})`,
      "exactly one, named with its unit such as load_kN",
    );
  if (gauges.length === 0)
    return fail(
      "no-gauge-column",
      "has no column of displacement",
      "at least one, such as loaded_end_1_mm",
    );
  const decimal = detectDecimal(
    sample
      .slice(headerAt + 1)
      .flatMap((cells) => roles.map(({ index }) => (cells[index] ?? "").trim())),
    false,
  );

  const clock = clockAt(roles, sample.slice(headerAt + 1), decimal);
  if (clock !== null)
    found.push(
      diagnostic(
        "warning",
        "clock-time",
        `${file}: the times of ${clock.name} are written as "${shortened(clock.cell)}", expected seconds or another unit counted from the start; they are left out, and the order of the readings stands for them`,
        { file, column: clock.name, value: clock.cell, expected: "a number of seconds" },
      ),
    );
  const read = roles.filter(({ index }) => index !== clock?.index);
  const columns = read.map((): number[] => []);
  visitRecords(text, delimiter, (cells, row) => {
    if (row <= headerAt + 1 || cells.every((cell) => cell.trim() === "")) return;
    const values = read.map(({ index }) => readNumber((cells[index] ?? "").trim(), decimal));
    if (values.includes(null)) {
      const unitsRow = row === headerAt + 2 && values.every((value) => value === null);
      const bad = read[values.indexOf(null)];
      if (!unitsRow)
        found.push(
          diagnostic(
            "warning",
            "not-a-number",
            `${file} row ${String(row)}: ${bad?.name ?? ""} "${shortened(cells[bad?.index ?? 0] ?? "")}" ${numberHint((cells[bad?.index ?? 0] ?? "").trim()) ?? "is not a number"}; the reading is left out`,
            {
              file,
              row,
              column: bad?.name ?? null,
              value: cells[bad?.index ?? 0] ?? "",
              expected: "a number",
            },
          ),
        );
      return;
    }
    values.forEach((value, k) => columns[k]?.push((value ?? NaN) * (read[k]?.factor ?? 1)));
  });
  const of = (role: Role): Float64Array => Float64Array.from(columns[read.indexOf(role)] ?? []);
  const load = loads[0] === undefined ? new Float64Array(0) : of(loads[0]);
  if (load.length < 10)
    return fail("too-short", `has ${String(load.length)} readings`, "at least 10");
  const time = read.find(({ kind }) => kind === "time");
  const time_s = time === undefined ? null : of(time);
  const back = time_s === null ? [] : stepsBack(time_s);
  if (back[0] !== undefined)
    found.push(
      diagnostic(
        "warning",
        "time-goes-back",
        `${file}: the time goes back ${back.length === 1 ? "once" : `${String(back.length)} times`}, first from ${String(time_s?.[back[0] - 1])} s to ${String(time_s?.[back[0]])} s at reading ${String(back[0] + 1)}, expected readings in order of time; they are kept in the order of the file`,
        {
          file,
          column: time?.name ?? null,
          value: String(time_s?.[back[0]]),
          expected: "readings in order of time",
        },
      ),
    );
  return done({
    time_s,
    load_kN: load,
    gauges: gauges.map((role) => ({
      name: role.name,
      place: placeOf(role.name),
      values_mm: of(role),
    })),
  });
}

function rolesOf(header: ReadonlyArray<string>, below: ReadonlyArray<string>): Role[] {
  const roles: Role[] = [];
  header.forEach((cell, index) => {
    const name = cell.trim();
    const unit =
      splitColumnName(name).unit ?? (below[index] ?? "").trim().replace(/^[[(]|[\])]$/g, "");
    const dimension = unit === "" ? null : unitDimension(unit);
    if (dimension === "force")
      roles.push({ kind: "load", name, index, factor: unitFactor(unit, "kN") });
    else if (dimension === "length")
      roles.push({ kind: "gauge", name, index, factor: unitFactor(unit, "mm") });
    else if (dimension === "time" && !roles.some(({ kind }) => kind === "time"))
      roles.push({ kind: "time", name, index, factor: unitFactor(unit, "s") });
  });
  return roles;
}

/**
 * A column of time none of whose cells is a number, as loggers write the time of day; null where
 * there is none.
 */
function clockAt(
  roles: ReadonlyArray<Role>,
  body: ReadonlyArray<ReadonlyArray<string>>,
  decimal: DecimalSign,
): { readonly name: string; readonly index: number; readonly cell: string } | null {
  const time = roles.find(({ kind }) => kind === "time");
  const cells =
    time === undefined
      ? []
      : body.map((cells) => (cells[time.index] ?? "").trim()).filter((cell) => /\d/.test(cell));
  return time === undefined ||
    cells[0] === undefined ||
    cells.some((cell) => readNumber(cell, decimal) !== null)
    ? null
    : { name: time.name, index: time.index, cell: cells[0] };
}

function stepsBack(time: Float64Array): number[] {
  return [...time.keys()].filter((i) => i > 0 && (time[i] ?? NaN) < (time[i - 1] ?? NaN));
}

function quoted(cells: ReadonlyArray<string>): string {
  return `${cells
    .slice(0, 4)
    .map((cell) => `"${shortened(cell.trim())}"`)
    .join(", ")}${cells.length > 4 ? ", …" : ""}`;
}

function placeOf(name: string): GaugePlace {
  if (/free/i.test(name)) return "free_end";
  return /load/i.test(name) ? "loaded_end" : "unknown";
}
