/**
 * Puts an apostrophe before text that a spreadsheet would take for a formula or a command: text
 * that starts with = + - @, their full-width forms, a tab or a line end, also after spaces.
 */
export function neutralText(text: string): string {
  return /^\s*[=+\-@＝＋－＠]|^[\t\r\n]/.test(text) ? `'${text}` : text;
}
