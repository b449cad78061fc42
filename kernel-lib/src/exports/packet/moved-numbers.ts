import { Table } from "../../tables";
import type { Block, Section } from "../document/document";
import { paragraph } from "./paragraph";

/** What is compared between two versions of `results.json`: numbers and text by their names. */
const PARTS = ["question", "groups", "factors", "sheets", "account", "drafts"] as const;
/** By what an entry of a list is known, so that a new entry moves no other. */
const NAMES = ["label", "provision", "change", "reason", "mode", "failureMode", "left"] as const;

/** One value that differs between two versions. */
export interface Moved {
  readonly what: string;
  readonly before: string | number | null;
  readonly now: string | number | null;
}

/** Every number and text of the results that differs between two versions of `results.json`. */
export function movedBetween(before: string, now: string): readonly Moved[] {
  const [old, next] = [valuesOf(before), valuesOf(now)];
  return [...new Set([...old.keys(), ...next.keys()])].flatMap((what): Moved[] => {
    const [a, b] = [old.get(what) ?? null, next.get(what) ?? null];
    return a === b ? [] : [{ what, before: a, now: b }];
  });
}

/** What moved since the packet in `folder`; unrounded, so that a small move is seen too. */
export function movedSection(moved: readonly Moved[], folder: string): Section {
  return {
    id: "moved",
    title: "Changes since the earlier packet",
    blocks:
      moved.length === 0
        ? [paragraph(`No number and no text of the results differs from ${folder}.`)]
        : [
            paragraph(
              `${moved.length} ${moved.length === 1 ? "value or text differs" : "values and texts differ"} from ${folder}.`,
            ),
            { kind: "table", table: movedTable(moved) } satisfies Block,
          ],
  };
}

function movedTable(moved: readonly Moved[]): Table {
  const shown = (value: Moved["now"]): string => (value === null ? "–" : String(value));
  return new Table({
    id: "moved",
    title: "Values and texts that moved",
    rowKey: ["what"],
    columns: [
      { key: "what", title: "what", kind: "text" },
      { key: "before", title: "before", kind: "text" },
      { key: "now", title: "now", kind: "text" },
    ],
    rows: moved.map(({ what, before, now }) => ({ what, before: shown(before), now: shown(now) })),
  });
}

function valuesOf(text: string): Map<string, string | number> {
  const found = new Map<string, string | number>();
  const results = JSON.parse(text) as Readonly<Record<string, unknown>>;
  for (const part of PARTS) collect(results[part], part, found);
  return found;
}

function collect(value: unknown, name: string, found: Map<string, string | number>): void {
  if (typeof value === "number" || typeof value === "string") found.set(name, value);
  else if (typeof value === "boolean") found.set(name, String(value));
  else if (Array.isArray(value))
    value.forEach((one: unknown, k) => collect(one, `${name}, ${entryName(one, k)}`, found));
  else if (typeof value === "object" && value !== null)
    for (const [key, one] of Object.entries(value)) collect(one, `${name}, ${key}`, found);
}

function entryName(value: unknown, place: number): string {
  if (typeof value !== "object" || value === null) return String(place + 1);
  const entry = value as Readonly<Record<string, unknown>>;
  const named = NAMES.map((name) => entry[name]).filter((one) => typeof one === "string");
  return named.length === 0 ? String(place + 1) : named.join(" ");
}
