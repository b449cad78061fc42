import { randomBytes } from "node:crypto";
import type { ServerResponse } from "node:http";
import { circumstancesHtml, reportHtml } from "../report";
import type { NotebookReview } from "../review";
import { createSanitiser } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import { cellParts } from "./cell-section";
import { carryOut } from "./desk-requests";
import { EventStream } from "./event-stream";
import { reply, startLocalServer } from "./local-server";
import type { LocalRequest } from "./local-server";
import { pageHtml, pagePolicy } from "./page-html";
import type { ReviewDesk } from "./review-desk";

export interface ReviewPageOptions {
  /** Writes the signed record; what it returns is shown to the reviewer. */
  readonly sign: (reviewer: string, reviews: readonly NotebookReview[]) => Promise<string>;
  /** The name that stands in the signing form at first. */
  readonly reviewer?: string;
  /**
   * How long the review waits for a page to come back after the last one has gone. Default 30 s.
   */
  readonly graceSeconds?: number;
}

export interface ReviewPage {
  /** The address to open, with its token. */
  readonly address: string;
  /**
   * Resolves, with the reason in words, when the reviewer ends the review or has closed the page.
   */
  readonly ended: Promise<string>;
  /** Ends the server; the desk is closed by whoever opened it. */
  readonly close: () => Promise<void>;
}

/** Serves a review desk as a page on this machine, where the reviewer steps through the cells. */
export async function serveReviewPage(
  desk: ReviewDesk,
  options: ReviewPageOptions,
): Promise<ReviewPage> {
  const sanitise = await createSanitiser();
  let end: (why: string) => void = () => undefined;
  const ended = new Promise<string>((done) => (end = done));
  const events = new EventStream(options.graceSeconds ?? 30, () => end("the page was closed"));

  const handle = async (
    { method, path, body }: LocalRequest,
    response: ServerResponse,
  ): Promise<void> => {
    const [first = "", second = ""] = path;
    if (method === "POST") {
      if (first !== "end")
        return reply(response, 200, await carryOut(first, body, desk, options.sign));
      reply(
        response,
        200,
        "The review has ended; this page may be closed. What it found is in the report that the terminal names.",
      );
      return end("the reviewer ended it");
    }
    if (first === "") return reply(response, 303, "", { location: String(placeToOpen(desk)) });
    if (first === "events") return listen(desk, events, response);
    if (first === "report")
      return reply(response, 200, await reportHtml(desk.results()), {
        "content-type": "text/html; charset=utf-8",
      });
    if (!/^[1-9]\d{0,5}$/.test(first) || !desk.notebooks[Number(first) - 1])
      return reply(response, 404, "There is nothing here.");
    if (second === "")
      return replyPage(desk, Number(first), sanitise, options.reviewer ?? "", response);
    if (second === "notes")
      return reply(response, 200, circumstancesHtml(desk.notebook(Number(first)).result()));
    const cell = Number(second);
    if (!desk.notebook(Number(first)).cells[cell - 1])
      return reply(response, 404, "There is nothing here.");
    return reply(
      response,
      200,
      JSON.stringify(changingParts(desk, Number(first), cell, sanitise)),
      { "content-type": "application/json" },
    );
  };

  const server = await startLocalServer(handle);
  return {
    address: server.address,
    ended,
    close: () => {
      events.close();
      return server.close();
    },
  };
}

/** The notebook where there is something to do. */
function placeToOpen(desk: ReviewDesk): number {
  const { running } = desk.state();
  return (
    running?.notebook ?? Math.max(1, desk.notebooks.findIndex(({ next }) => next !== undefined) + 1)
  );
}

function listen(desk: ReviewDesk, events: EventStream, response: ServerResponse): void {
  let leave: () => void = () => undefined;
  const send = events.add(response, () => leave());
  leave = desk.listen(send);
}

function replyPage(
  desk: ReviewDesk,
  place: number,
  sanitise: Sanitiser,
  reviewer: string,
  response: ServerResponse,
): void {
  const nonce = randomBytes(16).toString("hex");
  reply(response, 200, pageHtml(desk, place, nonce, sanitise, reviewer), {
    "content-type": "text/html; charset=utf-8",
    "content-security-policy": pagePolicy(nonce),
  });
}

function changingParts(desk: ReviewDesk, place: number, cell: number, sanitise: Sanitiser): object {
  const { running } = desk.state();
  const notebook = desk.notebook(place);
  return {
    ...cellParts(notebook, cell, running?.notebook === place && running.cell === cell, sanitise),
    state: desk.state().notebooks[place - 1]?.cells[cell - 1],
  };
}
