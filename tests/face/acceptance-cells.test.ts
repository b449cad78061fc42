import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { KernelClient, type OutputMessage } from "../../kernel-lib/src/notebook";
import { project } from "../house/project-files";
import { makeAcceptanceProject } from "./acceptance-project";

const built = existsSync(join(project, "kernel-lib", "dist", "index.d.ts"));
if (!built) console.log("skipped: the acceptance cells, because kernel-lib is not built");

interface Cell {
  readonly number: number;
  readonly title: string;
  readonly code: string;
}

/** The cells of the file, cut at the lines that begin with "// %%". */
function cellsOf(text: string): Cell[] {
  const [, ...parts] = text.split(/^\/\/ %% /m);
  return parts.map((part) => {
    const [, number = "", title = "", code = ""] = /^(\d+) (.*)\n([^]*)$/.exec(part) ?? [];
    return { number: Number(number), title, code };
  });
}

const cells = cellsOf(readFileSync(join(import.meta.dirname, "acceptance-cells.txt"), "utf8"));
const [first, ...others] = cells;

describe.skipIf(!built)("acceptance cells in the kernel", () => {
  // Inside the project, so that cells can import kernel-lib; the folder is ignored by git.
  const place = join(project, ".cache");
  mkdirSync(place, { recursive: true });
  const folder = mkdtempSync(join(place, "acceptance-"));
  let kernel: KernelClient;

  beforeAll(async () => {
    makeAcceptanceProject(folder);
    kernel = await KernelClient.start({ workingDirectory: folder });
    // Forms for print are left out, as in a review; what a cell shows is the same.
    await kernel.execute('process.env.CODE_COMPARISON_KEEP = "plain";', () => undefined, false);
    expect(await run(first!.code)).toMatchObject({ status: "ok", why: "" });
  }, 180_000);
  afterAll(async () => {
    await kernel.shutdown();
    rmSync(folder, { recursive: true, force: true });
  });

  /** How a cell ended, and what it showed as text. */
  async function run(code: string): Promise<{ status: string; why: string; shown: string[] }> {
    const shown: string[] = [];
    const reply = await kernel.execute(code, ({ type, content }: OutputMessage) => {
      const data = content["data"] as Record<string, string> | undefined;
      if (type === "execute_result" || type === "display_data")
        shown.push(data?.["text/plain"] ?? "");
    });
    const why = (reply["traceback"] as readonly string[] | undefined)?.join("\n") ?? "";
    return { status: String(reply["status"]), why, shown };
  }

  it("are the thirty of the design", () => {
    expect(cells.map(({ number }) => number)).toEqual(Array.from({ length: 30 }, (_, i) => i + 1));
  });

  it.each(others)(
    "cell $number runs: $title",
    async ({ code }) => {
      const { status, why, shown } = await run(code);
      expect(why).toBe("");
      expect(status).toBe("ok");
      expect(shown.join("").trim()).not.toBe("");
    },
    180_000,
  );
});
