/** A4 with margins, in points. */
export const PAGE = {
  width: 595.28,
  height: 841.89,
  left: 46,
  right: 46,
  top: 54,
  bottom: 54,
} as const;

/** Width between the margins, in points. */
export const TEXT_WIDTH = PAGE.width - PAGE.left - PAGE.right;

/** Text without control characters, which PDF text cannot hold. */
export function pdfText(text: string): string {
  return text.replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g, " ");
}
