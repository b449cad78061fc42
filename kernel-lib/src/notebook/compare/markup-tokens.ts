/** A piece of markup: a tag, or the text between two tags. */
export type MarkupToken =
  | { readonly kind: "text"; readonly text: string }
  | {
      readonly kind: "tag";
      /** The tag as it is written, white space evened out. */
      readonly text: string;
      /** `td`, `/td`; empty for a comment or declaration. */
      readonly name: string;
      /** Undefined where the tag is not written plainly: an attribute twice, a stray quote. */
      readonly attributes: ReadonlyMap<string, string> | undefined;
    };

const TAG = /<!--[\s\S]*?-->|<[^<>]*>/g;
const ATTRIBUTE = /([^\s=/"'<>]+)(?:\s*=\s*("[^"]*"|'[^']*'|[^\s"'<>]+))?/g;

/**
 * Markup cut into tags and texts; every character that can matter to a reader is in one of them.
 * Text of white space only is left out.
 */
export function markupTokens(markup: string): MarkupToken[] {
  const tokens: MarkupToken[] = [];
  let from = 0;
  const takeText = (to: number): void => {
    const text = markup.slice(from, to).replace(/\s+/g, " ").trim();
    if (text !== "") tokens.push({ kind: "text", text });
  };
  for (const found of markup.matchAll(TAG)) {
    takeText(found.index);
    from = found.index + found[0].length;
    tokens.push(tagOf(found[0]));
  }
  takeText(markup.length);
  return tokens;
}

function tagOf(tag: string): MarkupToken {
  const text = tag.replace(/\s+/g, " ");
  const [, name = ""] = /^<(\/?[a-zA-Z][^\s/>]*)/.exec(text) ?? [];
  const inner = text.slice(name.length + 1, -1).replace(/\/$/, "");
  const pairs = [...inner.matchAll(ATTRIBUTE)].map(
    ([, key = "", value = ""]) => [key, value.replace(/^["']|["']$/g, "")] as const,
  );
  const attributes = new Map(pairs);
  const plain = attributes.size === pairs.length && inner.replace(ATTRIBUTE, "").trim() === "";
  return { kind: "tag", text, name, attributes: plain ? attributes : undefined };
}

/** A token as it may be quoted in a line, cut to a readable length. */
export function tokenText(token: MarkupToken | undefined): string {
  const text = token?.text ?? "(nothing)";
  return text.length > 160 ? `${text.slice(0, 159)}…` : text;
}
