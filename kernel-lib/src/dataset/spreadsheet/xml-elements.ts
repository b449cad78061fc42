import { ZipFault } from "./zip-entries";

/** One element: its attributes as written, and its content as written. */
export interface XmlElement {
  readonly attributes: string;
  readonly content: string;
}

/**
 * The elements of one name, in order, in time proportional to the text: an element that never ends
 * is a fault, not a long search. Made for the flat lists of a spreadsheet's parts; an element of
 * the same name inside another is not looked for.
 */
export function* xmlElements(xml: string, name: string): Generator<XmlElement> {
  const open = `<${name}`;
  const close = `</${name}>`;
  for (let at = xml.indexOf(open); at !== -1;) {
    const after = xml[at + open.length] ?? "";
    if (!/[\s/>]/.test(after)) {
      at = xml.indexOf(open, at + open.length);
      continue;
    }
    const tagEnd = xml.indexOf(">", at);
    if (tagEnd === -1) throw new ZipFault(`an element ${name} is cut off`);
    const selfClosing = xml[tagEnd - 1] === "/";
    const attributes = xml.slice(at + open.length, selfClosing ? tagEnd - 1 : tagEnd);
    const end = selfClosing ? tagEnd + 1 : xml.indexOf(close, tagEnd);
    if (end === -1) throw new ZipFault(`an element ${name} never ends`);
    yield { attributes, content: selfClosing ? "" : xml.slice(tagEnd + 1, end) };
    at = xml.indexOf(open, selfClosing ? end : end + close.length);
  }
}

/** The prefix, with its colon, that a part's root element carries; "" for none. */
export function xmlPrefix(xml: string, root: string): string {
  return new RegExp(`<(\\w{1,20}:)?${root}[\\s>]`).exec(xml.slice(0, 5000))?.[1] ?? "";
}

/** The value of an attribute, or null; the name may carry any prefix when `anyPrefix` is set. */
export function xmlAttribute(
  attributes: string,
  name: string,
  anyPrefix: boolean = false,
): string | null {
  return (
    new RegExp(`(?:^|\\s)${anyPrefix ? "(?:\\w{1,20}:)?" : ""}${name}\\s*=\\s*"([^"]*)"`).exec(
      attributes,
    )?.[1] ?? null
  );
}

/** Text with the entities of XML replaced. */
export function xmlText(xml: string): string {
  return xml.replace(
    /&(?:#(\d{1,7})|#x([0-9a-fA-F]{1,6})|amp|lt|gt|quot|apos);/g,
    (entity, decimal: string | undefined, hexadecimal: string | undefined) => {
      if (decimal !== undefined || hexadecimal !== undefined) {
        const code = decimal === undefined ? parseInt(hexadecimal ?? "", 16) : Number(decimal);
        return code <= 0x10ffff ? String.fromCodePoint(code) : "\ufffd";
      }
      return (
        { "&amp;": "&", "&lt;": "<", "&gt;": ">", "&quot;": '"', "&apos;": "'" }[entity] ?? entity
      );
    },
  );
}
