import { existsSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { CHROMIUM_FLAGS, findChromium } from "../scripts/find-chromium.mjs";
import { serveStatic } from "../scripts/serve-static.mjs";
import type { BenchReport } from "./measure.ts";

const DIST = join(import.meta.dirname, "..", "apps", "web", "dist");

type BrowserBench = (browser: Browser, url: string) => Promise<BenchReport>;

/** Runs a bench against the built app in a Chromium; says what is missing, and reports nothing, where one of the two is. */
export async function inBrowser(bench: BrowserBench): Promise<BenchReport> {
  if (existsSync(join(DIST, "index.html"))) return inBrowserOf(DIST, bench);
  console.log("  needs a built app (npm run build)");
  return {};
}

/** The same against a folder's files. */
export async function inBrowserOf(folder: string, bench: BrowserBench): Promise<BenchReport> {
  const executablePath = findChromium();
  if (!executablePath) {
    console.log("  needs a Chromium");
    return {};
  }
  const server = await serveStatic(folder, 0);
  const browser = await chromium.launch({ executablePath, args: [...CHROMIUM_FLAGS] });
  try {
    return await bench(browser, server.url);
  } finally {
    await browser.close();
    await server.close();
  }
}
