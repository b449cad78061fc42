import { wholeText } from "../format";
import type { MimeBundle, MultilineText } from "../format";

/** A picture as a reader sees it, in whichever form of an output it comes. */
export interface Picture {
  /** Where in the output it stands, in words. */
  readonly place: string;
  /** Its own media type, such as image/svg+xml. */
  readonly type: string;
  readonly bytes: Buffer;
}

const DATA_ADDRESS = /data:(image\/[\w.+-]+)((?:;[\w=-]+)*),([^"')\s>]*)/g;

/** The pictures of a form of an output: itself, or those embedded in its HTML. */
export function picturesIn(type: string, value: unknown): Picture[] {
  const text = textOf(value);
  if (type.startsWith("image/")) {
    const bytes = type.endsWith("+xml") ? Buffer.from(text, "utf8") : Buffer.from(text, "base64");
    return [{ place: `picture ${type}`, type, bytes }];
  }
  if (type !== "text/html") return [];
  return [...text.matchAll(DATA_ADDRESS)].map(([, own = "", settings = "", data = ""], index) => ({
    place: `picture ${index + 1} in ${type}`,
    type: own,
    bytes: /;base64/.test(settings)
      ? Buffer.from(data, "base64")
      : Buffer.from(decoded(data), "utf8"),
  }));
}

/** HTML with a word in place of each embedded picture, which is compared for itself. */
export function withoutPictures(html: string): string {
  return html.replace(DATA_ADDRESS, (_all, type: string) => `(picture ${type})`);
}

/** All pictures of an output. */
export function picturesOf(data: MimeBundle): Picture[] {
  return Object.keys(data)
    .sort()
    .flatMap((type) => picturesIn(type, data[type]));
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** A form of an output as one text. */
export function textOf(value: unknown): string {
  return typeof value === "string" || Array.isArray(value)
    ? wholeText(value as MultilineText)
    : (JSON.stringify(value) ?? "");
}
