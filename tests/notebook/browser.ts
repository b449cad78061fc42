import { existsSync } from "node:fs";
import type { Browser, Page } from "playwright-core";

const CHROMIUM = "/usr/bin/chromium";

/** Whether there is a browser to test with. */
export const hasChromium = existsSync(CHROMIUM);

/** A browser without a window that asks nothing of the network by itself. */
export async function launchChromium(): Promise<Browser> {
  const { chromium } = await import("playwright-core");
  const args = [
    "--no-sandbox",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ];
  return chromium.launch({ executablePath: CHROMIUM, args });
}

/** What went wrong on a page or was asked of elsewhere, gathered while it is used. */
export function watch(page: Page, own: string): string[] {
  const found: string[] = [];
  page.on("request", (request) => {
    if (!request.url().startsWith(own) && !request.url().startsWith("data:"))
      found.push(`asked for ${request.url()}`);
  });
  page.on("pageerror", (error) => found.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") found.push(message.text());
  });
  return found;
}

/** Faults that axe finds on the page. */
export async function axeFaults(page: Page): Promise<string[]> {
  const { source } = (await import("axe-core")).default;
  return page.evaluate<string[]>(
    `${source}; axe.run().then((result) => result.violations.map((one) => one.id + ": " + one.nodes.map((node) => node.html.slice(0, 160)).join(" | ")))`,
  );
}
