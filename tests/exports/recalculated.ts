import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const office = ["/usr/bin/soffice", "/usr/local/bin/soffice"].find((file) => existsSync(file));
/** True where LibreOffice is not installed. */
export const officeAbsent: boolean = office === undefined;
if (officeAbsent) console.log("skipped: files opened by LibreOffice, because soffice is not installed");

/** Opens a document in LibreOffice without a window, lets it recalculate, and reads what it saves in another format. */
export function throughOffice(bytes: Uint8Array, from: string, to: string): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), "office-"));
  writeFileSync(join(folder, `in.${from}`), bytes);
  execFileSync(office ?? "soffice", [`-env:UserInstallation=file://${folder}/profile`, "--headless", "--convert-to", to, "--outdir", join(folder, "out"), join(folder, `in.${from}`)], { stdio: "pipe" });
  return new Uint8Array(readFileSync(join(folder, "out", `in.${to.split(":")[0]}`)));
}
