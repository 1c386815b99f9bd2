import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleText, ledgerOf, openApp, SIZES } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** The evolution: scrubbed, played, and jumped to from its ledger; section, plan and ledger move together. */
describe("the evolution", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
    await app.page.getByRole("tab", { name: "Evolution" }).click();
    await app.page.locator(".storyboard .frame").first().waitFor();
  });
  afterAll(() => browser.close());

  const slider = () => app.page.getByRole("slider", { name: "Moment of the evolution" });
  const place = () => slider().evaluate((one) => Number((one as HTMLInputElement).value));
  const settled = () => app.page.evaluate(() => new Promise(requestAnimationFrame));

  it("shows every stage on the storyboard with its status in words", async () => {
    const frames = await app.page.locator(".storyboard .frame").allTextContents();
    expect(frames).toHaveLength(6);
    for (const text of frames) expect(text).toMatch(/Within|Close|Over|Unknown/);
  });

  it("is scrubbed by keys: the load, its handle and the ledger follow", async () => {
    const before = await ledgerOf(app.page);
    await slider().focus();
    await app.page.keyboard.press("End");
    await app.page.keyboard.press("Home");
    for (let k = 0; k < 6; k++) await app.page.keyboard.press("PageUp");
    await settled();
    expect(await place()).toBeGreaterThan(0.4);
    expect(await ledgerOf(app.page)).not.toEqual(before);
    expect(await app.page.locator(".scrubber output").textContent()).toMatch(/Stage \d, .*% along/);
  });

  it("jumps to the moment a check is worst at", async () => {
    await app.page.locator('[data-evolution-check="off-plane"] button').click();
    await settled();
    const off = await app.page.locator('.ledger [data-check-id="off-plane"]').getAttribute("data-ratio");
    expect(Number(off)).toBeGreaterThan(0.97);
  });

  it("plays", async () => {
    await slider().focus();
    await app.page.keyboard.press("Home");
    await app.page.getByRole("button", { name: "Play" }).click();
    await app.page.waitForFunction(
      () => Number(document.querySelector<HTMLInputElement>(".scrubber input")?.value) > 0.05,
    );
    await app.page.getByRole("button", { name: "Pause" }).click();
  });

  it("draws any figure asked for", async () => {
    const line = () => app.page.locator(".curve-line").getAttribute("d");
    const worst = await line();
    await app.page.getByLabel("Curve").selectOption({ label: "Main A, highest tension" });
    expect(await line()).not.toBe(worst);
    expect(await line()).not.toContain("NaN");
  });

  it("sweeps anew when a way point is changed, and undoes it", async () => {
    const before = await app.page.locator(".evolution-ledger").textContent();
    const field = app.page
      .locator('[data-path="evolution.stages[3].path[0][0]"] input, input[data-path="evolution.stages[3].path[0][0]"]')
      .first();
    await app.page.evaluate(() => {
      for (const one of document.querySelectorAll<HTMLDetailsElement>("#panel details")) one.open = true;
    });
    await field.fill("3 m");
    await field.press("Enter");
    await app.page.waitForFunction((old) => document.querySelector(".evolution-ledger")?.textContent !== old, before);
    await app.page.getByRole("button", { name: "Undo" }).click();
    await app.page.waitForFunction((old) => document.querySelector(".evolution-ledger")?.textContent === old, before);
  });

  it("goes back to the plan's one position", async () => {
    await slider().focus();
    await app.page.keyboard.press("PageUp");
    await app.page.getByRole("button", { name: "Leave the evolution" }).click();
    await settled();
    expect(await handleText(app.page, "section", "load")).not.toBeNull();
    expect(app.errors).toEqual([]);
  });

  it("does not run over the edge of a phone", async () => {
    await app.page.setViewportSize(SIZES.phone);
    const over = await app.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(over).toBeLessThanOrEqual(0);
    await app.page.setViewportSize(SIZES.tablet);
  });
});
