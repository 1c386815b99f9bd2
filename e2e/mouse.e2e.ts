import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleAt, handleText, ledgerNow, ledgerOf, openApp, ready, SAVED_AFTER_MS } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** The main job by mouse: everything that can be dragged is dragged, and drawing, handles and ledger follow while it is. */
describe("by mouse", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
  });
  afterAll(() => browser.close());

  const drag = async (view: "section" | "plan", id: string, dx: number, dy: number) => {
    const { page } = app;
    const from = await handleAt(page, view, id);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + dx / 2, from.y + dy / 2, { steps: 4 });
    const midway = await ledgerNow(page);
    await page.mouse.move(from.x + dx, from.y + dy, { steps: 4 });
    await page.evaluate(() => new Promise(requestAnimationFrame));
    const end = await handleAt(page, view, id);
    await page.mouse.up();
    return { from, midway, end };
  };

  it.each([
    ["section", "tip", -30, 30],
    ["section", "load", 25, -40],
    ["plan", "tip", 40, 10],
    ["plan", "load", -20, 15],
  ] as const)("in the %s, the %s follows the mouse and the ledger follows it", async (view, id, dx, dy) => {
    const before = await ledgerOf(app.page);
    const said = await handleText(app.page, view, id);
    const { from, midway, end } = await drag(view, id, dx, dy);
    await expect.poll(() => handleText(app.page, view, id)).not.toBe(said);
    expect(midway).not.toEqual(before);
    expect(await ledgerOf(app.page)).not.toEqual(midway);
    if (id === "load") expect([end.x - from.x, end.y - from.y].map(Math.round)).toEqual([dx, dy]);
    await app.page.getByRole("button", { name: "Undo" }).click();
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it.each([
    ["vehicle", 12, 14],
    ["heading", 30, 0],
  ] as const)("in the plan, the %s moves", async (id, dx, dy) => {
    const before = await ledgerOf(app.page);
    await drag("plan", id, dx, dy);
    expect(await ledgerOf(app.page)).not.toEqual(before);
    await app.page.keyboard.press("Control+z");
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it("moves a tagline handler, and the tagline's pull changes", async () => {
    const id = (await app.page.locator('.is-plan [data-handle^="tagline:"]').first().getAttribute("data-handle")) ?? "";
    const before = await ledgerOf(app.page);
    await drag("plan", id, 10, 60);
    expect(await ledgerOf(app.page)).not.toEqual(before);
    await app.page.getByRole("button", { name: "Undo" }).click();
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it("makes one step to undo of a whole drag, and redoes it", async () => {
    const start = await handleText(app.page, "section", "tip");
    await drag("section", "tip", -40, 20);
    const moved = await handleText(app.page, "section", "tip");
    await app.page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => handleText(app.page, "section", "tip")).toBe(start);
    await app.page.getByRole("button", { name: "Redo" }).click();
    await expect.poll(() => handleText(app.page, "section", "tip")).toBe(moved);
  });

  it("loses nothing when the page is opened again", async () => {
    await drag("plan", "tip", 15, 5);
    const before = await ledgerOf(app.page);
    await app.page.waitForTimeout(SAVED_AFTER_MS);
    await app.page.reload();
    await ready(app.page);
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it("keeps a change made just before the page is left", async () => {
    await drag("section", "load", 12, -12);
    const said = await handleText(app.page, "section", "load");
    await app.page.reload();
    await ready(app.page);
    await expect.poll(() => handleText(app.page, "section", "load")).toBe(said);
  });

  it("shows a check's working, and the field that mends it", async () => {
    const { page } = app;
    const row = page.locator(".ledger-column [data-check-id]").filter({ hasText: "Ladder length" });
    await row.getByRole("button").click();
    await expect(row.locator(".formula").textContent()).resolves.toBeTruthy();
    expect(await row.locator(".terms dt").count()).toBeGreaterThan(0);
  });

  it("enlarges at the mouse by wheel, and shows all again", async () => {
    const { page } = app;
    const tip = await handleAt(page, "section", "tip");
    const load = await handleAt(page, "section", "load");
    await page.mouse.move(tip.x, tip.y);
    await page.mouse.wheel(0, -200);
    await expect.poll(async () => (await handleAt(page, "section", "load")).y - load.y).toBeGreaterThan(20);
    const still = await handleAt(page, "section", "tip");
    expect(Math.hypot(still.x - tip.x, still.y - tip.y)).toBeLessThan(1.5);
    await page.locator(".is-section").getByRole("button", { name: "Fit" }).click();
    await expect
      .poll(
        async () =>
          Math.abs((await handleAt(page, "section", "load")).y - (await handleAt(page, "section", "tip")).y) <
          Math.abs(load.y - tip.y) * 1.3,
      )
      .toBe(true);
  });

  it("loses nothing when the tab is killed right after a drag", async () => {
    await drag("plan", "load", 14, 9);
    const said = await handleText(app.page, "plan", "load");
    const crashed = app.page.waitForEvent("crash");
    const devtools = await app.context.newCDPSession(app.page);
    devtools.send("Page.crash").catch(() => {});
    await crashed;
    const page = await app.context.newPage();
    await page.goto(appUrl());
    await ready(page);
    await expect.poll(() => handleText(page, "plan", "load")).toBe(said);
  });

  it("reports no error", () => expect(app.errors).toEqual([]));
});
