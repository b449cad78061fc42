/**
 * Advance widths of DejaVu Sans in thousandths of the font size, characters 32 to 126, measured
 * from the font files. With them a builder can leave room for its labels without loading a font.
 */
const regular = [
  318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337, 636, 636, 636,
  636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
  575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635, 611, 732, 684, 989, 685,
  611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579,
  278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
];
const bold = [
  348, 456, 521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415, 380, 365, 696, 696, 696,
  696, 696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 580, 1000, 774, 762, 734, 830, 683,
  683, 821, 837, 372, 372, 775, 637, 995, 837, 850, 733, 850, 770, 720, 682, 812, 774, 1103, 771,
  724, 725, 457, 365, 457, 838, 500, 500, 675, 716, 593, 716, 678, 435, 716, 712, 343, 343, 665,
  343, 1042, 712, 687, 716, 716, 493, 595, 478, 712, 652, 924, 645, 652, 582, 712, 365, 712, 838,
];
/**
 * Width taken for a character outside the table: as wide as most Greek letters and signs, or a
 * little more.
 */
const other = { regular: 720, bold: 780 };

/**
 * Width of a text in pixels at a font size in pixels; plotly's tags (`<b>`, `<sub>`, …) take no
 * room.
 */
export function textWidth(
  text: string,
  size: number,
  weight: "regular" | "bold" = "regular",
): number {
  const widths = weight === "bold" ? bold : regular;
  let thousandths = 0;
  for (const character of text.replace(/<[^<>]*>/g, "").replace(/\u00a0/g, " ")) {
    thousandths += widths[(character.codePointAt(0) ?? 0) - 32] ?? other[weight];
  }
  return (thousandths * size) / 1000;
}

/**
 * Breaks a text at spaces (not at no-break spaces) so that no line is wider than `width`; a single
 * long word stays whole.
 */
export function wrapText(
  text: string,
  width: number,
  size: number,
  weight: "regular" | "bold" = "regular",
): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \t\r\n]+/).filter((part) => part !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && textWidth(longer, size, weight) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === "" ? lines : [...lines, line];
}

/** Text that plotly shows as it is: its tags are made harmless and line ends become spaces. */
export function plainText(text: string): string {
  return text
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/[\u0000-\u001f\u007f]+/g, " ");
}
