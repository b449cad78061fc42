/**
 * A text as a terminal may be given it. What notebooks, data files and options hold may command a
 * terminal: rewrite a line above, set the window's title, turn the order of letters around. Such
 * characters are written as `\\u` and four digits; line ends and tabs stay.
 */
export function printable(text: string): string {
  return text.replace(COMMANDING, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** The same in one line: a text of many lines must not pass for lines of ours. */
export function printableLine(text: string): string {
  return printable(text.replace(/\s*\r?\n\s*/g, " "));
}

/**
 * Control characters but tab and line end (a carriage return only before one), marks that change
 * the direction of writing, separators of lines and paragraphs, and letters of no width.
 */
const COMMANDING =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]|\r(?!\n)/g;
