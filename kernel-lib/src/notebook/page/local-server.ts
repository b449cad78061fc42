import { randomBytes, timingSafeEqual } from "node:crypto";
import { createServer } from "node:http";
import type { IncomingMessage, ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { NotebookProblem } from "../format";

/** A request that came with the right token, from this machine's own page. */
export interface LocalRequest {
  readonly method: string;
  /** The parts of the path after the token. */
  readonly path: readonly string[];
  /** The body of a POST, read as JSON; undefined for a GET. */
  readonly body: unknown;
}

export type LocalHandler = (request: LocalRequest, response: ServerResponse) => Promise<void>;

export interface LocalServer {
  /** The address to open, with its token. */
  readonly address: string;
  readonly close: () => Promise<void>;
}

const LARGEST_BODY = 4 * 1024 * 1024;

/**
 * A server on 127.0.0.1 at a free port. It answers only an address with its random token, only
 * under the name 127.0.0.1, and takes a POST only as JSON from its own page: no page from
 * elsewhere can read the review or steer it.
 */
export async function startLocalServer(handle: LocalHandler): Promise<LocalServer> {
  const token = randomBytes(24).toString("hex");
  let host = "";
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const [, given = "", ...path] = (request.url ?? "").split("?")[0]?.split("/") ?? [];
    if (!isOwnPage(request, host) || !sameToken(given, token))
      return reply(response, 403, "Not allowed.");
    const method = request.method ?? "";
    if (method !== "GET" && method !== "POST")
      return reply(response, 405, "Only GET and POST are answered.");
    if (method === "POST" && request.headers["content-type"] !== "application/json")
      return reply(response, 415, "A POST is taken as application/json only.");
    await handle(
      { method, path, body: method === "POST" ? await readJson(request) : undefined },
      response,
    );
  };
  const server = createServer((request, response) => {
    answer(request, response).catch((error: Error) => {
      if (response.headersSent) response.end();
      else reply(response, error instanceof NotebookProblem ? 400 : 500, error.message);
    });
  });
  await new Promise<void>((listening, failed) =>
    server.once("error", failed).listen(0, "127.0.0.1", listening),
  );
  host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    address: `http://${host}/${token}/`,
    close: () => {
      const closed = new Promise<void>((done) => server.close(() => done()));
      server.closeAllConnections();
      return closed;
    },
  };
}

/** Sends a whole answer; nothing of it is kept by the browser or told to other sites. */
export function reply(
  response: ServerResponse,
  status: number,
  text: string,
  headers: Readonly<Record<string, string>> = {},
): void {
  response
    .writeHead(status, { "content-type": "text/plain; charset=utf-8", ...SAFE_HEADERS, ...headers })
    .end(text);
}

export const SAFE_HEADERS = {
  "cache-control": "no-store",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  "cross-origin-resource-policy": "same-origin",
  "cross-origin-opener-policy": "same-origin",
} as const;

function isOwnPage({ headers }: IncomingMessage, host: string): boolean {
  const site = headers["sec-fetch-site"];
  return (
    headers.host === host &&
    (headers.origin === undefined || headers.origin === `http://${host}`) &&
    (site === undefined || site === "same-origin" || site === "none")
  );
}

function sameToken(given: string, token: string): boolean {
  return given.length === token.length && timingSafeEqual(Buffer.from(given), Buffer.from(token));
}

async function readJson(request: IncomingMessage): Promise<unknown> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > LARGEST_BODY)
      throw new NotebookProblem(`what the page sent is longer than ${LARGEST_BODY / 1048576} MB`);
    chunks.push(chunk);
  }
  try {
    return JSON.parse(Buffer.concat(chunks).toString("utf8"));
  } catch {
    throw new NotebookProblem("what the page sent is no JSON");
  }
}
