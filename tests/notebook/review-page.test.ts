import { request } from "node:http";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ReviewDesk, serveReviewPage } from "../../kernel-lib/src/notebook";
import type { DeskState, ReviewPage } from "../../kernel-lib/src/notebook";
import { fixtureCopy, notebookOf } from "./notebook-in-scratch";

/** Waits until the desk tells a state that fits. */
function until(desk: ReviewDesk, fits: (state: DeskState) => boolean): Promise<DeskState> {
  return new Promise((done) => {
    const leave = desk.listen((state) => {
      if (!fits(state)) return;
      // The first call comes before `leave` is there.
      setImmediate(() => leave());
      done(state);
    });
  });
}
const idle = ({ running }: DeskState): boolean => running === null;

describe("the page's server", () => {
  let desk: ReviewDesk;
  let page: ReviewPage;
  beforeAll(async () => {
    desk = await ReviewDesk.open([fixtureCopy("changed-number"), fixtureCopy("hostile-html")], {});
    page = await serveReviewPage(desk, { sign: async (reviewer) => `signed by ${reviewer}` });
  });
  afterAll(async () => {
    await page.close();
    await desk.close();
  });

  function ask(
    path: string,
    headers: Record<string, string> = {},
    body?: string,
  ): Promise<{ status: number; text: string; headers: Record<string, unknown> }> {
    const url = new URL(page.address);
    return new Promise((done, failed) => {
      const all = {
        host: url.host,
        ...(body === undefined ? {} : { "content-type": "application/json" }),
        ...headers,
      };
      const asked = request(
        {
          host: url.hostname,
          port: url.port,
          path,
          headers: all,
          method: body === undefined ? "GET" : "POST",
          agent: false,
        },
        (answer) => {
          let text = "";
          answer
            .setEncoding("utf8")
            .on("data", (part: string) => (text += part))
            .on("end", () =>
              done({ status: answer.statusCode ?? 0, text, headers: answer.headers }),
            );
        },
      );
      // A long body that is refused is still being written when its answer has come; the request
      // hears no more of the reset then.
      asked.on("socket", (socket) => socket.on("error", () => undefined));
      asked.on("error", failed).end(body);
    });
  }

  test("answers its address only: not without the token, not under another name, not from another page", async () => {
    const { pathname, origin, host } = new URL(page.address);
    expect(host).toMatch(/^127\.0\.0\.1:\d+$/);
    expect((await ask(pathname)).headers["location"]).toBe("1");
    expect((await ask(`${pathname}1`)).status).toBe(200);
    expect((await ask("/")).status).toBe(403);
    expect((await ask(`/${"0".repeat(48)}/1`)).status).toBe(403);
    expect((await ask(`${pathname.slice(0, -2)}x/1`)).status).toBe(403);
    expect((await ask(`${pathname}1`, { host: "example.invalid" })).status).toBe(403);
    expect(
      (await ask(`${pathname}1`, { host: `localhost:${new URL(page.address).port}` })).status,
    ).toBe(403);
    expect((await ask(`${pathname}1`, { "sec-fetch-site": "cross-site" })).status).toBe(403);
    expect((await ask(`${pathname}stop`, { origin: "http://example.invalid" }, "{}")).status).toBe(
      403,
    );
    expect((await ask(`${pathname}stop`, { origin: "null" }, "{}")).status).toBe(403);
    expect(
      (await ask(`${pathname}stop`, { origin, "content-type": "text/plain" }, "{}")).status,
    ).toBe(415);
    expect((await ask(`${pathname}stop`, { origin }, "{}")).status).toBe(200);
    for (const path of ["other", "3", "1/99", "0", "1/../../etc/passwd"])
      expect((await ask(`${pathname}${path}`)).status, path).toBe(404);
  });

  test("sends a policy that allows no outside resource and no script but its own", async () => {
    const { pathname } = new URL(page.address);
    const [first, second] = [await ask(`${pathname}1`), await ask(`${pathname}1`)];
    const policy = String(first.headers["content-security-policy"]);
    expect(policy).toMatch(
      /^default-src 'none'; img-src data:; connect-src 'self'; script-src 'nonce-[0-9a-f]{32}';/,
    );
    expect(policy).not.toMatch(/script-src[^;]*unsafe|https?:|\*/);
    expect(second.headers["content-security-policy"]).not.toBe(policy);
    expect(first.headers).toMatchObject({
      "cache-control": "no-store",
      "referrer-policy": "no-referrer",
      "x-frame-options": "DENY",
    });
    expect(first.headers["access-control-allow-origin"]).toBeUndefined();
  });

  test("refuses what it cannot read, with the reason", async () => {
    const { pathname } = new URL(page.address);
    const post = async (action: string, body: unknown): Promise<unknown[]> => {
      const { status, text } = await ask(
        `${pathname}${action}`,
        {},
        typeof body === "string" ? body : JSON.stringify(body),
      );
      return [status, text];
    };
    expect(await post("run", "{")).toEqual([400, "what the page sent is no JSON"]);
    expect(await post("run", [])).toEqual([400, "expected an object of JSON"]);
    expect(await post("run", { notebook: 1, to: 9 })).toEqual([
      400,
      "cell 9: expected a cell from 1 to 4",
    ]);
    expect(await post("run", { notebook: 7, to: 1 })).toEqual([
      400,
      "there is no notebook 7; expected 1 to 2",
    ]);
    expect(await post("run", { notebook: "1", to: 1 })).toEqual([
      400,
      'notebook "1": expected a whole number',
    ]);
    expect(await post("comment", { notebook: 1, cell: 9, remark: "", opinion: "" })).toEqual([
      400,
      "there is no cell 9 in table-changed-number.ipynb",
    ]);
    expect(
      await post("comment", { notebook: 1, cell: 1, remark: "x".repeat(10_001), opinion: "" }),
    ).toEqual([400, "remark: expected a text of at most 10000 characters"]);
    expect(await post("comment", { notebook: 1, cell: 1, remark: "", opinion: "fine" })).toEqual([
      400,
      'opinion "fine": expected agree, question or nothing',
    ]);
    expect(await post("unknown", {})).toEqual([
      400,
      'the page asked for "unknown", which is not known',
    ]);
    expect((await post("look", { notebook: 1, expression: "rows" }))[1]).toBe("run a cell first");
    expect(
      (
        await post("run", `{"notebook":1,"to":"${"1".repeat(5 * 1024 * 1024)}"}`).catch(() => [400])
      )[0],
    ).toBe(400);
  });
});

describe("the review desk", () => {
  test("runs to a cell, keeps comments over a new start, and tells what was said of cells that did not run", async () => {
    const desk = await ReviewDesk.open([fixtureCopy("changed-number")], {});
    try {
      desk.run(1, 2);
      expect(() => desk.run(1, 2)).toThrow(/is running; stop it first/);
      await expect(desk.look(1, "rows")).rejects.toThrow("cell 1 is running");
      expect((await until(desk, idle)).notebooks[0]).toMatchObject({
        next: 3,
        cells: ["same 0", "changed 0", "waiting 0", "waiting 0"],
        progress: "2 of 4 cells rerun, 1 same, 1 CHANGED",
      });
      expect(await desk.look(1, "rows.slice(1).length")).toBe("1");
      await desk.comment(1, 2, { remark: " typed in? ", opinion: "question" });
      await desk.comment(1, 4, { remark: "later" });
      expect(desk.results()[0]).toMatchObject({
        reproduced: false,
        notes: [
          "after cell 2 the reviewer evaluated rows.slice(1).length",
          "cell 4, not rerun: later",
        ],
      });
      expect(desk.results()[0]?.cells[1]).toMatchObject({
        remark: "typed in?",
        opinion: "question",
      });
      await desk.startOver(1);
      expect(desk.state().notebooks[0]).toMatchObject({
        next: 1,
        cells: ["waiting 1", "waiting 1", "waiting 1", "waiting 1"],
      });
      desk.run(1, 4);
      await until(desk, idle);
      expect(desk.results()[0]).toMatchObject({
        notes: [],
        cells: [
          { verdict: "same" },
          { verdict: "changed", remark: "typed in?" },
          { verdict: "same" },
          { verdict: "same", remark: "later" },
        ],
      });
      expect(() => desk.run(1, 4)).toThrow("every cell has been rerun");
    } finally {
      await desk.close();
    }
  });

  test("stop ends the running cell and those to follow; signing again is asked for after a change", async () => {
    const desk = await ReviewDesk.open(
      [notebookOf(["1", "let n = 0; while (n >= 0) n = (n + 1) % 1000;", "n >= 0"])],
      {},
    );
    try {
      desk.run(1, 3);
      await until(desk, ({ running }) => running?.cell === 2);
      await new Promise((done) => setTimeout(done, 500));
      desk.stop();
      expect((await until(desk, idle)).notebooks[0]?.cells).toEqual([
        "not_recorded 0",
        "failed 0",
        "waiting 0",
      ]);
      await desk.sign("A", async (reviewer, reviews) => `${reviewer}: ${reviews[0]?.cells.length}`);
      expect(desk.state().signed).toBe("A: 2");
      desk.run(1, 3);
      expect((await until(desk, idle)).signed).toBe("Cells were run after signing: sign again.");
    } finally {
      await desk.close();
    }
  });

  test("ends when the last page has stayed away", async () => {
    const desk = await ReviewDesk.open([fixtureCopy("same")], {});
    const page = await serveReviewPage(desk, { sign: async () => "", graceSeconds: 0.2 });
    const { hostname, port, pathname } = new URL(page.address);
    const asked = request({ host: hostname, port, path: `${pathname}events` }, (answer) =>
      answer.once("data", () => asked.destroy()),
    ).on("error", () => undefined);
    asked.end();
    expect(await page.ended).toBe("the page was closed");
    await page.close();
    await desk.close();
  });
});
