import { deflateRawSync } from "node:zlib";

/**
 * A zip archive of the given entries, deflated, as small as a test needs it (APPNOTE 6.3, checksums
 * left at 0: our reader has none to trust).
 */
export function zip(
  entries: Readonly<Record<string, string | Uint8Array>>,
  claim: { size?: number; flags?: number; method?: number } = {},
): Uint8Array {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const [name, content] of Object.entries(entries)) {
    const packed = deflateRawSync(content);
    const size = claim.size ?? content.length;
    const local = Buffer.alloc(30);
    local.writeUInt32LE(0x04034b50, 0);
    local.writeUInt16LE(claim.method ?? 8, 8);
    local.writeUInt32LE(packed.length, 18);
    local.writeUInt32LE(size, 22);
    local.writeUInt16LE(Buffer.byteLength(name), 26);
    const central = Buffer.alloc(46);
    central.writeUInt32LE(0x02014b50, 0);
    central.writeUInt16LE(claim.flags ?? 0, 8);
    central.writeUInt16LE(claim.method ?? 8, 10);
    central.writeUInt32LE(packed.length, 20);
    central.writeUInt32LE(size, 24);
    central.writeUInt16LE(Buffer.byteLength(name), 28);
    central.writeUInt32LE(offset, 42);
    locals.push(local, Buffer.from(name), packed);
    directory.push(central, Buffer.from(name));
    offset += 30 + Buffer.byteLength(name) + packed.length;
  }
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(Object.keys(entries).length, 10);
  end.writeUInt32LE(
    directory.reduce((sum, part) => sum + part.length, 0),
    12,
  );
  end.writeUInt32LE(offset, 16);
  return Uint8Array.from(Buffer.concat([...locals, ...directory, end]));
}

/** A spreadsheet of sheets with raw row markup. */
export function spreadsheet(sheets: Readonly<Record<string, string>>, shared = ""): Uint8Array {
  const names = Object.keys(sheets);
  return zip({
    "xl/workbook.xml": `<workbook><sheets>${names.map((name, i) => `<sheet name="${name}" sheetId="${String(i + 1)}" r:id="rId${String(i + 1)}"/>`).join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships>${names.map((_, i) => `<Relationship Id="rId${String(i + 1)}" Target="worksheets/sheet${String(i + 1)}.xml"/>`).join("")}</Relationships>`,
    "xl/sharedStrings.xml": `<sst>${shared}</sst>`,
    ...Object.fromEntries(
      names.map((name, i) => [
        `xl/worksheets/sheet${String(i + 1)}.xml`,
        `<worksheet><sheetData>${sheets[name] ?? ""}</sheetData></worksheet>`,
      ]),
    ),
    "xl/vbaProject.bin": "never read",
  });
}
