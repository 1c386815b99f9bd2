import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type AppPage, handleAt, ledgerOf, openApp, SIZES } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** The evolution of the first example: scrubbed, played, dragged, and jumped to from the ledger; section, plan and ledger move together. */
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
  beforeEach(() => app.page.getByRole("button", { name: "This moment" }).or(position()).click());

  const position = () => app.page.getByRole("button", { name: "This position" });
  const slider = () => app.page.getByRole("slider", { name: "Moment of the evolution" });
  const at = async () => Number(await slider().getAttribute("aria-valuenow"));
  const settled = () => app.page.evaluate(() => new Promise(requestAnimationFrame));
  const swept = () => app.page.waitForSelector('.evolution[data-swept="true"]');
  const drawn = () =>
    Promise.all(
      ["section", "plan"].map((view) => app.page.$eval(`.is-${view} .drawing-frame > svg`, (svg) => svg.innerHTML)),
    );
  const press = async (...keys: string[]) => {
    await slider().focus();
    for (const key of keys) await app.page.keyboard.press(key);
    await settled();
  };
  const changedEverywhere = async (act: () => Promise<unknown>) => {
    const [ledger, [section, plan]] = [await ledgerOf(app.page), await drawn()];
    await act();
    await settled();
    const [newSection, newPlan] = await drawn();
    expect(newSection).not.toBe(section);
    expect(newPlan).not.toBe(plan);
    await expect.poll(() => ledgerOf(app.page)).not.toEqual(ledger);
  };

  it("shows every stage on the storyboard with its status in words", async () => {
    const frames = await app.page.locator(".storyboard .frame").allTextContents();
    expect(frames).toHaveLength(6);
    for (const text of frames) expect(text).toMatch(/: (within|close|over|unknown), /);
  });

  it("is scrubbed by keys: arrows step, page keys go from stage to stage, section, plan and ledger follow", async () => {
    await press("Home");
    expect(await at()).toBe(0);
    await press("PageDown", "PageDown", "PageDown");
    expect(await at()).toBe(50);
    await changedEverywhere(() => press("Shift+ArrowRight", "Shift+ArrowRight"));
    expect(await at()).toBeGreaterThan(50);
    await press("PageUp");
    expect(await at()).toBe(50);
    await press("PageUp");
    expect(await at()).toBeCloseTo(33.3, 1);
    await press("End");
    expect(await at()).toBe(100);
    expect(await slider().getAttribute("aria-valuetext")).toMatch(/Stage 6, 100.% along/);
  });

  it("is scrubbed by mouse, on the curve and on the rail under it", async () => {
    const box = await slider().boundingBox();
    const rail = await app.page.locator(".scrub-rail").boundingBox();
    if (box === null || rail === null) throw new Error("no slider");
    const { mouse } = app.page;
    await mouse.move(rail.x + 0.55 * rail.width, box.y + 20);
    await changedEverywhere(async () => {
      await mouse.down();
      await mouse.up();
    });
    expect(await at()).toBeCloseTo(55, 0);
    await mouse.move(rail.x + 0.55 * rail.width, rail.y + 20);
    await mouse.down();
    await mouse.move(rail.x + 0.75 * rail.width, rail.y + 20, { steps: 5 });
    await mouse.up();
    await settled();
    expect(await at()).toBeCloseTo(75, 0);
  });

  it("goes to a stage from the storyboard", async () => {
    await app.page.locator(".storyboard .frame button").nth(2).click();
    await expect.poll(() => app.page.locator(".frame[aria-current=step]").textContent()).toMatch(/^3/);
  });

  it("jumps from a row of the ledger to the moment it is worst at", async () => {
    await press("Home");
    await app.page.getByRole("button", { name: "Whole evolution" }).click();
    const row = app.page.locator('.ledger-column [data-check-id="off-plane"]');
    const when = await row.locator(".ledger-when").textContent();
    const worst = Number(await row.getAttribute("data-ratio"));
    expect(worst).toBeGreaterThan(0.9);
    await row.getByRole("button").first().click();
    await settled();
    expect(await at()).toBeGreaterThan(0);
    expect(await app.page.locator(".ledger-shown").textContent()).toContain(when);
    const ringed = () => app.page.locator('.drawing circle:has(> title:text("Sideways pull on the tip: "))').count();
    expect(await ringed()).toBe(2);
    await app.page.getByRole("button", { name: "This moment" }).click();
    await expect.poll(async () => Number(await row.getAttribute("data-ratio"))).toBeCloseTo(worst, 9);
    await row.getByRole("button").first().click();
    await expect.poll(ringed).toBe(0);
  });

  it.each([
    ["section", 0, 25],
    ["plan", 30, -20],
  ] as const)(
    "in the %s, a way point is dragged: everything is swept anew, in one step to undo",
    async (view, dx, dy) => {
      await press("Home", "PageDown", "PageDown", "PageDown", "PageDown", "ArrowRight");
      await app.page.getByRole("button", { name: "Whole evolution" }).click();
      await swept();
      const before = await ledgerOf(app.page);
      const [id] = await app.page.$$eval(`.is-${view} [data-handle^="waypoint:4"]`, (handles) =>
        handles.map((one) => (one as HTMLElement).dataset.handle ?? ""),
      );
      if (id === undefined) throw new Error("no way point to drag");
      const from = await handleAt(app.page, view, id);
      await app.page.mouse.move(from.x, from.y);
      await app.page.mouse.down();
      await app.page.mouse.move(from.x + dx, from.y - dy, { steps: 6 });
      await app.page.mouse.up();
      await settled();
      const now = await handleAt(app.page, view, id);
      expect([now.x - from.x, now.y - from.y].map(Math.round)).toEqual([dx, -dy]);
      await swept();
      await expect.poll(() => ledgerOf(app.page)).not.toEqual(before);
      await app.page.getByRole("button", { name: "Undo" }).click();
      await swept();
      await expect.poll(() => ledgerOf(app.page)).toEqual(before);
      expect(await app.page.getByRole("button", { name: "Undo" }).isDisabled()).toBe(true);
    },
  );

  it("moves a way point by keys", async () => {
    await press("Home", "PageDown", "PageDown", "PageDown", "PageDown", "ArrowRight");
    const handle = app.page.locator('.is-plan [data-handle^="waypoint:4"]').first();
    const said = await handle.getAttribute("aria-valuetext");
    await handle.focus();
    await app.page.keyboard.press("Shift+ArrowRight");
    await expect.poll(() => handle.getAttribute("aria-valuetext")).not.toBe(said);
    await app.page.keyboard.press("Control+z");
    await expect.poll(() => handle.getAttribute("aria-valuetext")).toBe(said);
  });

  it("plays at reading speed, and stops when asked", async () => {
    await press("Home");
    await app.page.getByRole("button", { name: "Play" }).click();
    await expect.poll(at).toBeGreaterThan(3);
    await app.page.getByRole("button", { name: "Pause" }).click();
    const stopped = await at();
    await app.page.waitForTimeout(200);
    expect(await at()).toBe(stopped);
  });

  it("plays from stage to stage for those who want no motion", async () => {
    await app.page.emulateMedia({ reducedMotion: "reduce" });
    await press("Home");
    await app.page.getByRole("button", { name: "Play" }).click();
    const seen = new Set<number>();
    await expect
      .poll(async () => seen.add(await at()).size, { timeout: 15_000, interval: 50 })
      .toBeGreaterThanOrEqual(3);
    await app.page.getByRole("button", { name: "Pause" }).click();
    for (const place of seen) expect((place * 6) / 100).toBeCloseTo(Math.round((place * 6) / 100), 1);
    await app.page.emulateMedia({ reducedMotion: null });
  });

  it("draws any figure asked for", async () => {
    const line = () => app.page.locator(".scrub-track > svg").innerHTML();
    const worst = await line();
    await app.page.getByLabel("Curve").selectOption({ label: "Main A, highest tension" });
    expect(await line()).not.toBe(worst);
    expect(await line()).not.toContain("NaN");
    await app.page.getByLabel("Curve").selectOption({ index: 0 });
  });

  it("says in the stage and in the ledger what is wrong with it, and the rest is still worked", async () => {
    await app.page.getByRole("button", { name: "Whole evolution" }).click();
    await app.page.evaluate(() => {
      for (const one of document.querySelectorAll<HTMLDetailsElement>("#panel details")) one.open = true;
    });
    const field = app.page.locator('[data-path="evolution.stages[3].path[0][2]"] input');
    await field.fill("5 m");
    await field.press("Enter");
    await expect
      .poll(() => app.page.locator('[data-path="evolution.stages[3]"] .stage-problem').first().textContent())
      .toMatch(/inside “?"?Flood wall/);
    await expect
      .poll(() => app.page.locator(".ledger-column [data-check-id^='stage/']").first().textContent())
      .toMatch(/Stage 4/);
    await expect.poll(() => app.page.locator(".storyboard .frame").count()).toBe(6);
    await app.page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => app.page.locator(".stage-problem").count()).toBe(0);
  });

  it("adds, copies, moves and removes a stage", async () => {
    const names = () => app.page.locator("#panel .stage-heading > span:first-child").allTextContents();
    const before = await names();
    await app.page.getByRole("button", { name: "Add a stage" }).click();
    expect((await names()).at(-1)).toBe(`${before.length + 1}. New stage`);
    await app.page.evaluate(() => {
      for (const one of document.querySelectorAll<HTMLDetailsElement>("#panel details")) one.open = true;
    });
    const last = app.page.locator('#panel section[data-path="evolution.stages"] > details').last();
    await last.getByRole("button", { name: "Move up" }).click();
    expect((await names()).at(-2)).toBe(`${before.length}. New stage`);
    await app.page.getByRole("button", { name: "Remove New stage" }).click();
    expect(await names()).toEqual(before);
    for (let step = 0; step < 3; step++) await app.page.getByRole("button", { name: "Undo" }).click();
    expect(await names()).toEqual(before);
  });

  it("draws the swing of a line that is let go, and tells of the tether", async () => {
    await press("Home", "PageDown", "PageDown", "PageDown", "ArrowRight");
    await app.page.getByRole("tab", { name: "Rig" }).click();
    const show = app.page.getByRole("button", { name: "Show on drawing" }).first();
    await show.click();
    const drawn = () => app.page.locator(".is-plan .drawing-frame > svg").textContent();
    await expect.poll(drawn).toContain("let go");
    await show.click();
    await expect.poll(drawn).not.toContain("let go");
    await app.page.getByRole("button", { name: "Set skate tether" }).click();
    await expect.poll(() => app.page.locator(".now .readout").count()).toBe(1);
    await app.page.getByRole("button", { name: "Undo" }).click();
    await app.page.getByRole("tab", { name: "Evolution" }).click();
  });

  it("goes back to the rig's own position", async () => {
    await press("PageUp");
    await app.page.getByRole("button", { name: "Leave the evolution" }).click();
    await settled();
    await expect.poll(() => app.page.locator('.is-section [data-handle="load"]').count()).toBe(1);
    expect(app.errors).toEqual([]);
  });

  it("does not run over the edge of a phone", async () => {
    await app.page.setViewportSize(SIZES.phone);
    const over = () =>
      app.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await over()).toBeLessThanOrEqual(0);
    await press("End");
    expect(await over()).toBeLessThanOrEqual(0);
    await app.page.setViewportSize(SIZES.tablet);
  });
});
