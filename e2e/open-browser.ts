import { type Browser, chromium } from "playwright-core";
import { inject } from "vitest";

/** Quiet on a closed network; the sandbox has to be off where everything runs as root. */
const FLAGS = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Starts the Chromium that the tests were given. Close it when done. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: inject("chromiumPath"), args: FLAGS });

/** Address the web app is served at, with a slash at its end. */
export const appUrl = (): string => inject("appUrl");
