import type { ServerResponse } from "node:http";
import { SAFE_HEADERS } from "./local-server";

/** Pages that listen for changes, and a watch for the moment when the last one has gone. */
export class EventStream {
  private readonly pages = new Set<ServerResponse>();
  private leaving: NodeJS.Timeout | undefined;

  /** @param onAllGone called when pages had been open and none has come back within the grace */
  constructor(
    private readonly graceSeconds: number,
    private readonly onAllGone: () => void,
  ) {}

  /**
   * Keeps the answer open and sends events through it; `onClose` is called when the page leaves.
   */
  add(response: ServerResponse, onClose: () => void): (data: object) => void {
    clearTimeout(this.leaving);
    response.writeHead(200, {
      ...SAFE_HEADERS,
      "content-type": "text/event-stream; charset=utf-8",
    });
    this.pages.add(response);
    response.once("close", () => {
      this.pages.delete(response);
      onClose();
      // A page that is loaded again is back at once; only one that stays away has been closed.
      if (this.pages.size === 0)
        this.leaving = setTimeout(this.onAllGone, this.graceSeconds * 1000);
    });
    return (data) => void response.write(`data: ${JSON.stringify(data)}\n\n`);
  }

  close(): void {
    clearTimeout(this.leaving);
    for (const page of this.pages) page.removeAllListeners("close").end();
    this.pages.clear();
  }
}
