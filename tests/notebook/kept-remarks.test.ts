import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ReviewDrafts } from "../../kernel-lib/src/cli/notebook/review-drafts";
import { ReviewDesk } from "../../kernel-lib/src/notebook";
import { carryOut } from "../../kernel-lib/src/notebook/page/desk-requests";
import { notebookOf, scratchFolder } from "./notebook-in-scratch";

const noSign = (): Promise<string> => Promise.resolve("");

/** A desk whose comments are kept in the file, as the command opens it; no kernel is started. */
async function deskOn(
  notebook: string,
  file: string,
): Promise<{ desk: ReviewDesk; restored: number; drafts: ReviewDrafts }> {
  const desk = await ReviewDesk.open([notebook], {});
  const drafts = await ReviewDrafts.open(file);
  const restored = desk.restore((name, hash) => drafts.of(name, hash));
  desk.keep = (...comment) => drafts.save(...comment);
  return { desk, restored, drafts };
}

const comment = (
  desk: ReviewDesk,
  remark: string,
  before?: { remark: string; opinion: string },
): Promise<string> =>
  carryOut(
    "comment",
    { notebook: 1, cell: 1, remark, opinion: "question", ...(before ? { before } : {}) },
    desk,
    noSign,
  );

describe("remarks are kept as they are made", () => {
  test("on disk before they are confirmed, and there again at the next start of the same notebook", async () => {
    const [notebook, file] = [notebookOf(["1", "2"]), join(scratchFolder(), "drafts.json")];
    const first = await deskOn(notebook, file);
    expect(first.restored).toBe(0);
    await comment(first.desk, "typed in by hand?");
    expect(readFileSync(file, "utf8")).toContain("typed in by hand?");
    // As after a crash: nothing was closed.
    const second = await deskOn(notebook, file);
    expect(second.restored).toBe(1);
    expect(second.desk.notebook(1).commentOn(1)).toEqual({
      remark: "typed in by hand?",
      opinion: "question",
    });
    const other = await deskOn(notebookOf(["1", "2", "3"]), file);
    expect(other.restored).toBe(0);
    // What was said of another notebook stays.
    await comment(other.desk, "of another one");
    expect((await deskOn(notebook, file)).restored).toBe(1);
    await second.drafts.clear();
    expect(existsSync(file)).toBe(false);
  });

  test("many at once: the file holds the last, whole", async () => {
    const file = join(scratchFolder(), "drafts.json");
    const { desk } = await deskOn(notebookOf(["1"]), file);
    await Promise.all(Array.from({ length: 50 }, (_, index) => comment(desk, `remark ${index}`)));
    expect(JSON.parse(readFileSync(file, "utf8"))).toMatchObject([{ remark: "remark 49" }]);
  });

  test("of two pages one wins openly, the other is told and keeps its text", async () => {
    const { desk } = await deskOn(notebookOf(["1"]), join(scratchFolder(), "drafts.json"));
    const nothing = { remark: "", opinion: "" };
    await comment(desk, "first page", nothing);
    await expect(comment(desk, "second page", nothing)).rejects.toThrow(
      "not saved: cell 1 was commented on another page of this review",
    );
    expect(desk.notebook(1).commentOn(1).remark).toBe("first page");
    await comment(desk, "after a reload", { remark: "first page", opinion: "question" });
    expect(desk.notebook(1).commentOn(1).remark).toBe("after a reload");
  });

  test("a remark that cannot be written is told; a file that is none of ours is not overwritten", async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, "no-folder"), "");
    const { desk } = await deskOn(notebookOf(["1"]), join(folder, "no-folder", "drafts.json"));
    await expect(comment(desk, "lost?")).rejects.toThrow("no-folder");
    for (const text of ["{", "{}", '[{"notebook":1}]']) {
      writeFileSync(join(folder, "drafts.json"), text);
      await expect(ReviewDrafts.open(join(folder, "drafts.json"))).rejects.toThrow(
        "holds no remarks that can be read",
      );
    }
  });
});
