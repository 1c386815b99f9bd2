import { expect, it } from "vitest";
import { webDist } from "../scripts/build-web.mjs";
import { serveStatic } from "../scripts/serve-static.mjs";
import { handleText, ledgerOf, openApp, ready, SAVED_AFTER_MS } from "./app-page.ts";
import { openBrowser } from "./open-browser.ts";

it("works with the server gone after the first visit: every form, a change, a reload, nothing lost", async () => {
  const server = await serveStatic(webDist, 0);
  const browser = await openBrowser();
  try {
    const { page, errors } = await openApp(browser, { url: server.url, serviceWorker: true });
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(async () =>
      (
        await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).length))
      ).some((count) => count > 5),
    );
    await server.close();

    await page.reload();
    await ready(page);
    const before = await ledgerOf(page);
    await page.locator('.is-section [data-handle="load"]').focus();
    await page.keyboard.press("Shift+ArrowUp");
    const moved = await handleText(page, "section", "load");
    await expect.poll(() => ledgerOf(page)).not.toEqual(before);
    for (const tab of ["Scene", "Stand", "Rig", "Evolution", "Ledger", "Policy"]) {
      await page.getByRole("tab", { name: tab }).click();
      await page.waitForSelector("#panel .group, #panel .ledger-sheet");
    }
    await page.waitForTimeout(SAVED_AFTER_MS);
    await page.reload();
    await ready(page);
    await expect.poll(() => handleText(page, "section", "load")).toBe(moved);
    expect(
      errors.filter((error) => !/Failed to load resource|ERR_CONNECTION_REFUSED|ServiceWorker/i.test(error)),
    ).toEqual([]);
  } finally {
    await browser.close();
    await server.close().catch(() => {});
  }
});
