import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { planStoreAcceptance } from "../packages/runtime/src/storage/plan-store-acceptance.ts";
import { openApp } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** Runs in the page: the case's number, against a database of its own. */
const RUNNER = `
import { indexedDbPlanStore } from "./packages/runtime/src/storage/indexed-db-plan-store.ts";
import { planStoreAcceptance } from "./packages/runtime/src/storage/plan-store-acceptance.ts";
globalThis.runCase = async (index) => {
  const name = "acceptance-" + index + "-" + Math.random();
  const opened = [];
  try {
    await planStoreAcceptance[index].run(async () => {
      await opened.at(-1)?.close();
      const store = await indexedDbPlanStore(name);
      opened.push(store);
      return store;
    });
    return "passed";
  } catch (error) {
    return String(error?.message ?? error);
  } finally {
    await opened.at(-1)?.close();
    indexedDB.deleteDatabase(name);
  }
};`;

describe("indexedDbPlanStore, in a real browser", () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await openBrowser();
    ({ page } = await openApp(browser, { url: appUrl() }));
    const { outputFiles } = await build({
      stdin: { contents: RUNNER, resolveDir: process.cwd(), loader: "ts" },
      bundle: true,
      format: "iife",
      write: false,
    });
    await page.evaluate(outputFiles[0]?.text ?? "");
  });
  afterAll(() => browser.close());

  it.each(planStoreAcceptance.map(({ title }, index) => [title, index] as const))("%s", async (_, index) => {
    expect(
      await page.evaluate(
        (at) => (globalThis as unknown as { runCase: (index: number) => Promise<string> }).runCase(at),
        index,
      ),
    ).toBe("passed");
  });
});
