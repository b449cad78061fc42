import { execFileSync } from "node:child_process";
import {
  existsSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

const office = ["/usr/bin/soffice", "/usr/local/bin/soffice"].find((file) => existsSync(file));
/** True where LibreOffice is not installed. */
export const officeAbsent: boolean = office === undefined;
if (officeAbsent)
  console.log("skipped: files opened by LibreOffice, because soffice is not installed");
/** True where LibreOffice reads no equations: its formula module is a package of its own. */
export const officeFormulasAbsent: boolean =
  office === undefined || !existsSync(join(dirname(realpathSync(office)), "libsmlo.so"));
if (officeFormulasAbsent && !officeAbsent)
  console.log(
    "skipped: equations read by LibreOffice, because its formula module is not installed",
  );

/**
 * Opens documents in one start of LibreOffice without a window, lets it recalculate, and reads what
 * it saves in another format.
 */
export function allThroughOffice(
  documents: readonly Uint8Array[],
  from: string,
  to: string,
): Uint8Array[] {
  const folder = mkdtempSync(join(tmpdir(), "office-"));
  try {
    const files = documents.map((_, n) => join(folder, `in-${n}.${from}`));
    files.forEach((file, n) => writeFileSync(file, documents[n] ?? new Uint8Array()));
    const own = `-env:UserInstallation=file://${folder}/profile`;
    execFileSync(
      office ?? "soffice",
      [own, "--headless", "--convert-to", to, "--outdir", join(folder, "out"), ...files],
      { stdio: "pipe" },
    );
    return files.map(
      (_, n) => new Uint8Array(readFileSync(join(folder, "out", `in-${n}.${to.split(":")[0]}`))),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The same for one document. */
export function throughOffice(bytes: Uint8Array, from: string, to: string): Uint8Array {
  return allThroughOffice([bytes], from, to)[0] ?? new Uint8Array();
}
