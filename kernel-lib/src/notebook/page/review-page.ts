import { randomBytes, timingSafeEqual } from "node:crypto";
import { createServer } from "node:http";
import type { IncomingMessage, ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { NotebookProblem } from "../format";
import { reportHtml } from "../report";
import type { CellReview, NotebookReview } from "../review";
import { escapeText } from "../sanitise";
import { PAGE_SCRIPT } from "./page-script";

export interface ReviewPage {
  /** The address to open, with its token. */
  readonly address: string;
  readonly close: () => Promise<void>;
}

const LARGEST_BODY = 4 * 1024 * 1024;

/**
 * Serves a finished review as a page on 127.0.0.1 at a free port. Only an address with the
 * random token is answered, and only under the name 127.0.0.1, so that no page from elsewhere
 * can read or sign it.
 *
 * @param sign writes the record; what it returns is shown to the reviewer
 */
export async function serveReviewPage(reviews: readonly NotebookReview[], sign: (reviewer: string) => Promise<string>): Promise<ReviewPage> {
  const token = randomBytes(24).toString("hex");
  const nonce = randomBytes(16).toString("hex");
  const html = await reportHtml(reviews, { nonce, script: PAGE_SCRIPT, form: FORM, remarkBox: (notebook, cell) => remarkBox(reviews.indexOf(notebook), cell) });
  const server = createServer((request, response) => {
    void answer(request, response).catch((error: Error) => reply(response, error instanceof NotebookProblem ? 400 : 500, error.message));
  });
  let host = "";
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const [, given = "", page = ""] = (request.url ?? "").split("/");
    const origin = request.headers.origin;
    if (request.headers.host !== host || (origin !== undefined && origin !== `http://${host}`) || !sameToken(given, token)) return reply(response, 403, "Not allowed.");
    if (request.method === "GET" && page === "") return reply(response, 200, html, "text/html");
    if (request.method !== "POST" || page !== "sign") return reply(response, 404, "There is nothing here.");
    const { reviewer, remarks } = readSigning(await readBody(request));
    for (const { notebook, cell, remark } of remarks) {
      const reviewed = reviews[notebook]?.cells.find(({ number }) => number === cell);
      if (reviewed) reviewed.remark = remark;
    }
    reply(response, 200, await sign(reviewer));
  };
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    address: `http://${host}/${token}/`,
    close: () => {
      server.closeAllConnections();
      return new Promise((closed) => server.close(() => closed()));
    },
  };
}

const FORM = `<nav class="progress" aria-label="Steps"><button id="previous" type="button">Previous (p)</button> <button id="next" type="button">Next (n)</button> <button id="open" type="button">Next difference (d)</button> <span id="place" role="status"></span> <span class="channel">o: lay rerun over recorded; r: remark</span>
<form id="sign"><label>Reviewer's name <input id="reviewer" required maxlength="200" autocomplete="name"></label> <button>Sign the review</button> <span id="told" role="status"></span></form></nav>`;

function remarkBox(notebook: number, cell: CellReview): string {
  return `<label class="remark">Remark<textarea data-notebook="${notebook}" data-cell="${cell.number}" maxlength="10000">${escapeText(cell.remark ?? "")}</textarea></label>`;
}

function sameToken(given: string, token: string): boolean {
  return given.length === token.length && timingSafeEqual(Buffer.from(given), Buffer.from(token));
}

function reply(response: ServerResponse, status: number, text: string, type = "text/plain"): void {
  const headers = { "content-type": `${type}; charset=utf-8`, "cache-control": "no-store", "referrer-policy": "no-referrer", "x-content-type-options": "nosniff", "x-frame-options": "DENY" };
  response.writeHead(status, headers).end(text);
}

async function readBody(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > LARGEST_BODY) throw new NotebookProblem("the remarks are longer than 4 MB together");
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString("utf8");
}

interface Signing {
  readonly reviewer: string;
  readonly remarks: readonly { readonly notebook: number; readonly cell: number; readonly remark: string }[];
}

function readSigning(body: string): Signing {
  let value: unknown;
  try {
    value = JSON.parse(body);
  } catch {
    throw new NotebookProblem("what the page sent is no JSON");
  }
  const { reviewer, remarks } = value as Partial<Signing>;
  if (typeof reviewer !== "string" || !Array.isArray(remarks)) throw new NotebookProblem("the page sent no reviewer or no remarks");
  const checked = (remarks as Signing["remarks"]).filter((one) => Number.isInteger(one?.notebook) && Number.isInteger(one?.cell) && typeof one?.remark === "string");
  return { reviewer, remarks: checked };
}
