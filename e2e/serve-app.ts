import { existsSync } from "node:fs";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { webDist } from "../scripts/build-web.mjs";
import { chromiumAdvice, findChromium } from "../scripts/find-chromium.mjs";
import { serveStatic } from "../scripts/serve-static.mjs";

declare module "vitest" {
  export interface ProvidedContext {
    /** Address the built web app is served at, with a slash at its end. */
    appUrl: string;
    /** The Chromium to start. */
    chromiumPath: string;
  }
}

/** Serves the built web app for all browser tests of a run. */
export default async function serveApp(project: TestProject): Promise<() => Promise<void>> {
  if (!existsSync(join(webDist, "index.html"))) throw new Error("The web app is not built. Run: npm run build");
  const chromiumPath = findChromium();
  if (!chromiumPath) throw new Error(chromiumAdvice());
  const { url, close } = await serveStatic(webDist, 0);
  project.provide("appUrl", url);
  project.provide("chromiumPath", chromiumPath);
  return close;
}
