/**
 * A line of text broken at its spaces where it is wider than the page, further lines set in. A
 * number keeps its unit; a word longer than the page stays whole.
 * @param width of the page in characters
 * @param indent of the further lines
 * @example brokenLine("Limits of a long kind", 12, 2) // "Limits of a\n  long kind"
 */
export function brokenLine(line: string, width: number, indent: number): string {
  const [first = "", ...words] = line
    .trimStart()
    .split(/ (?!(?:kN|kip|lb|N|mm²?|in\.²?|MPa|GPa|psi|ksi)\b)/);
  const lead = line.length - line.trimStart().length;
  const lines = [" ".repeat(lead) + first];
  for (const word of words) {
    const last = lines[lines.length - 1] ?? "";
    if (last.length + 1 + word.length > width && word !== "") lines.push(" ".repeat(indent) + word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines.join("\n");
}
