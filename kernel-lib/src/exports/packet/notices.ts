import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

const HEAD = `Notices for the parts of others in this packet

The PDF files embed letters of DejaVu Sans. Figures in PNG show text in that font; SVG, HTML and
DOCX files name it and embed nothing. The text of its license, as shipped with the font files, follows.

`;

/**
 * The notices that travel with the packet: the license of the font that its PDF files embed, read
 * from the package that the font files come from, so that the two cannot differ.
 * @throws Error when the package `dejavu-fonts-ttf` has no license file
 * @example await packetNotices() // "Notices for the parts of others in this packet ..."
 */
export async function packetNotices(): Promise<string> {
  const license = createRequire(__filename).resolve("dejavu-fonts-ttf/LICENSE");
  return HEAD + (await readFile(license, "utf8"));
}
