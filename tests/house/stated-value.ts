/** A number, text or truth that a comment states, and the name that it is stated under. */
interface Leaf {
  readonly key?: string | undefined;
  readonly value: number | string | boolean;
  /** As written, where it is a number. */
  readonly written?: string;
  /** Whether the rest is left out. */
  readonly open?: boolean;
}

const STATED =
  /(?:(\w+): )?(?:"([^"]*)"|(?<![\w.])([-−]?\d[\d,]*(?:\.\d+)?(?:e[-+]?\d+)?)(…|\.\.\.)?|\b(true|false|null)\b)/g;
/** The same without the name of a member before it. */
const BARE = new RegExp(STATED.source.replace("(?:(\\w+): )?", "()"), "g");

/**
 * What contradicts the comment behind an example; undefined where nothing does, or where the
 * comment states no value. A comment that begins with a bracket states all that it lists, any other
 * its first number or quoted text. Digits before … must be the value's; digits that end, rounded.
 */
export function contradiction(comment: string, value: unknown): string | undefined {
  const listed = /^[[{]/.test(comment);
  const all = [...comment.matchAll(listed ? STATED : BARE)].map(leafOf);
  const stated = listed ? all : all.slice(0, 1);
  const found = leavesOf(value, undefined, 0);
  let from = 0;
  for (const leaf of stated) {
    const at = found.findIndex((own, i) => i >= from && agrees(leaf, own));
    // A member may be stated before one that stands ahead of it.
    const place =
      at >= 0 ? at : found.findIndex((own) => leaf.key !== undefined && agrees(leaf, own));
    if (place < 0)
      return `${leaf.key ?? "value"} ${String(leaf.written ?? leaf.value)} is stated, not found in ${JSON.stringify(found.slice(0, 8).map((own) => own.value))}`;
    from = place + 1;
  }
  return undefined;
}

/** Whether a comment states a value. */
export function statesValue(comment: string): boolean {
  return comment.match(STATED) !== null;
}

function leafOf([, name, quoted, number, open, word]: RegExpMatchArray): Leaf {
  const key = name === "" ? undefined : name;
  const text = quoted?.replaceAll("\\n", "\n").replaceAll("\\\\", "\\");
  if (text !== undefined)
    return { key, value: text.replace(/ ?(…|\.\.\.)$/, ""), open: /(…|\.\.\.)$/.test(text) };
  if (word !== undefined) return { key, value: word === "null" ? "null" : word === "true" };
  const written = number!.replaceAll(",", "").replace("−", "-");
  return { key, value: Number(written), written, open: open !== undefined };
}

function leavesOf(value: unknown, key: string | undefined, depth: number): Leaf[] {
  if (value === null) return [{ key, value: "null" }];
  if (typeof value === "number" || typeof value === "string" || typeof value === "boolean")
    return [{ key, value }];
  if (typeof value !== "object" || depth > 4) return [];
  if (Array.isArray(value) || ArrayBuffer.isView(value))
    return Array.from(value as ArrayLike<unknown>).flatMap((item) =>
      leavesOf(item, key, depth + 1),
    );
  return Object.entries(value).flatMap(([name, item]) => leavesOf(item, name, depth + 1));
}

function agrees(stated: Leaf, own: Leaf): boolean {
  if (stated.key !== undefined && own.key !== undefined && stated.key !== own.key) return false;
  if (typeof stated.value !== typeof own.value) return false;
  if (typeof stated.value === "string")
    return stated.open ? String(own.value).startsWith(stated.value) : own.value === stated.value;
  if (typeof stated.value !== "number") return own.value === stated.value;
  const [, decimals = ""] = (stated.written ?? "").split(".");
  const step = 10 ** -decimals.length;
  const own_ = own.value as number;
  if (stated.open)
    return Math.trunc(own_ / step + Math.sign(own_) * 1e-9) === Math.round(stated.value / step);
  return Math.abs(own_ - stated.value) <= step / 2 + 1e-12 * Math.abs(own_);
}
