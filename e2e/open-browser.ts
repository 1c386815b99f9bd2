import { type Browser, chromium } from "playwright-core";
import { inject } from "vitest";
import { CHROMIUM_FLAGS } from "../scripts/find-chromium.mjs";

/** Starts the Chromium that the tests were given. Close it when done. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: inject("chromiumPath"), args: [...CHROMIUM_FLAGS] });

/** Address the web app is served at, with a slash at its end. */
export const appUrl = (): string => inject("appUrl");
