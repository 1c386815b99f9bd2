import { existsSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { CHROMIUM_FLAGS, findChromium } from "../scripts/find-chromium.mjs";
import { serveStatic } from "../scripts/serve-static.mjs";
import type { BenchReport } from "./measure.ts";

const DIST = join(import.meta.dirname, "..", "apps", "web", "dist");

/** Runs a bench against the built app in a Chromium; says what is missing, and reports nothing, where one of the two is. */
export async function inBrowser(bench: (browser: Browser, url: string) => Promise<BenchReport>): Promise<BenchReport> {
  const executablePath = findChromium();
  if (!existsSync(join(DIST, "index.html")) || !executablePath) {
    console.log("  needs a built app (npm run build) and a Chromium");
    return {};
  }
  const server = await serveStatic(DIST, 0);
  const browser = await chromium.launch({ executablePath, args: [...CHROMIUM_FLAGS] });
  try {
    return await bench(browser, server.url);
  } finally {
    await browser.close();
    await server.close();
  }
}
