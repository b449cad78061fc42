import { zipEntries } from "../../dataset";
import { zipArchive } from "./zip";

const FIXED = "2000-01-01T00:00:00Z";

/**
 * Packs an Office Open XML file anew with fixed dates inside and out, so that the same content
 * gives the same bytes.
 * @throws ZipFault when the bytes are no archive
 */
export function fixedPackageDates(bytes: Uint8Array): Uint8Array {
  const entries = [...zipEntries(bytes, (name) => !name.endsWith("/"))];
  return zipArchive(
    entries.map(([name, content]) => ({
      name,
      content:
        name === "docProps/core.xml" ? withFixedDates(new TextDecoder().decode(content)) : content,
    })),
  );
}

function withFixedDates(core: string): string {
  return core.replace(/(<dcterms:(?:created|modified)[^>]*>)[^<]*/g, `$1${FIXED}`);
}
