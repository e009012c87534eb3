import { existsSync } from "node:fs";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll } from "vitest";

/** Where systems keep a Chromium; Debian's package puts it first. Another may be named by CHROMIUM. */
const USUAL = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
export const CHROMIUM = [process.env["CHROMIUM"] ?? "", ...USUAL].find((path) => path !== "" && existsSync(path));
export const LEFT_OUT =
  "left out: no Chromium is found (Debian: apt-get install chromium; or set CHROMIUM to its path)";
/** Set where leaving them out would be a fault. */
export const REQUIRED = process.env["BROWSER_TESTS"] === "required";

export interface Opened {
  page: Page;
  /** Errors told on its console, and anything it asked of a network. */
  complaints: string[];
}

/** A browser for the file's tests. */
export function browser(): { open(file: string, options?: BrowserContextOptions): Promise<Opened> } {
  let running: Browser;
  beforeAll(async () => {
    running = await chromium.launch({ executablePath: CHROMIUM ?? "", args: ["--no-sandbox"] });
  });
  afterAll(() => running?.close());
  return {
    async open(file, options = {}) {
      const context = await running.newContext({ offline: true, viewport: { width: 1280, height: 900 }, ...options });
      // A test's own time is enough.
      context.setDefaultTimeout(0);
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on("console", (message) => {
        if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
      });
      page.on("pageerror", (error) => complaints.push(error.message));
      page.on("dialog", (dialog) => {
        complaints.push(`dialog: ${dialog.message()}`);
        dialog.dismiss();
      });
      page.on("request", (request) => {
        if (!/^(file|data|blob):/.test(request.url())) complaints.push(`asks for ${request.url()}`);
      });
      await page.goto(`file://${file}`);
      return { page, complaints };
    },
  };
}
