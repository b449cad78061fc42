import { spawnSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { demoCsv } from "../../face/demo-rows";
import { writeDemoRows } from "../../face/small-studies";
import { project } from "../../house/project-files";

const built = existsSync(join(project, "kernel-lib", "dist", "cli", "main.js"));
if (!built) console.log("skipped: the packed library, because kernel-lib is not built");

const place = mkdtempSync(join(tmpdir(), "packed-"));
const app = join(place, "app");
const library = join(app, "node_modules", "kernel-lib");
const SHORT = "00-load-displacement-curves.ipynb";

interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

function run(command: string, words: readonly string[], cwd: string): Ended {
  const { status, stdout, stderr } = spawnSync(command, words, { cwd, encoding: "utf8" });
  return { status, out: stdout, err: stderr };
}
const answer = (...words: string[]): Ended =>
  run(process.execPath, [join(library, "bin/code-comparison.js"), ...words], app);
const lastLine = (text: string): string => text.trimEnd().split("\n").at(-1) ?? "";

/** Packs the library and unpacks it into an empty folder; its packages are those of this project. */
function install(): void {
  mkdirSync(library, { recursive: true });
  const words = ["pack", "--silent", "-w", "kernel-lib", "--pack-destination", place];
  const { status, out, err } = run("npm", words, project);
  expect({ status, err }).toMatchObject({ status: 0 });
  const archive = join(place, lastLine(out));
  expect(run("tar", ["-xzf", archive, "-C", library, "--strip-components=1"], place).status).toBe(
    0,
  );
  symlinkSync(join(project, "node_modules"), join(place, "node_modules"));
  symlinkSync(join(project, "kernel-lib/node_modules"), join(library, "node_modules"));
}

describe.skipIf(!built)("the library packed and installed into an empty folder", () => {
  afterAll(() => rmSync(place, { recursive: true, force: true }));

  it("creates a study there, runs it, names a notebook that fails, reviews and exports", () => {
    install();
    expect(existsSync(join(library, "notebooks", SHORT))).toBe(true);
    expect(answer("new", "mine")).toMatchObject({ status: 0 });
    const rows = demoCsv()
      .filter(({ setup }) => setup === "unconfined_tension")
      .slice(0, 12)
      .map((row) => ({ ...row, study_id: "mine", curve: "" }));
    writeDemoRows(join(app, "mine/data"), Object.keys(rows[0]!), rows);
    const notebooks = join(app, "mine/notebooks");
    for (const name of readdirSync(notebooks)) if (name !== SHORT) rmSync(join(notebooks, name));
    const broken = JSON.parse(readFileSync(join(notebooks, SHORT), "utf8")) as {
      cells: { cell_type: string; source: string[] }[];
    };
    broken.cells.find(({ cell_type }) => cell_type === "code")!.source = ["null.length;"];
    writeFileSync(join(notebooks, "09-broken.ipynb"), JSON.stringify(broken));

    const failed = answer("study", "mine", "--jobs", "1");
    expect(failed.status).toBe(1);
    expect(failed.out).toContain("Study incomplete");
    expect(lastLine(failed.err)).toMatch(/^Failed: notebooks.09-broken\.ipynb/);
    expect(existsSync(join(app, "mine/exports/manifest.json"))).toBe(true);
    expect(existsSync(join(app, "exports"))).toBe(false);

    // What the study ran becomes the recording that a reviewer reruns.
    rmSync(join(notebooks, "09-broken.ipynb"));
    copyFileSync(join(app, "mine/exports/notebooks", SHORT), join(notebooks, SHORT));
    const review = answer("review", "mine");
    expect(review.out).not.toContain("changed");
    expect(review).toMatchObject({ status: 0 });
    expect(answer("export", "mine")).toMatchObject({ status: 0 });
    expect(existsSync(join(app, "mine/exports/packet/packet.html"))).toBe(true);
    const found = answer("export", "--verify", "mine/exports/packet");
    expect(found).toMatchObject({ status: 0 });
  }, 300_000);
});
