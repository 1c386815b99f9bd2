import type { Browser, CDPSession } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleAt, handleText, ledgerOf, openApp } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** Sooner after the last one, the browser does not take a touch for a tap of its own, ms. */
const NEXT_TOUCH_MS = 350;

type Finger = { readonly x: number; readonly y: number };

/** The main job by fingers, on a tablet and on a phone. */
describe.each(["tablet", "phone"] as const)("by touch on a %s", (size) => {
  let browser: Browser;
  let app: AppPage;
  let touch: CDPSession;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl(), size, touch: true });
    touch = await app.context.newCDPSession(app.page);
  });
  afterAll(() => browser.close());

  const send = (type: "touchStart" | "touchMove" | "touchEnd", fingers: readonly Finger[]) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: fingers.map(({ x, y }, id) => ({ x, y, id })) });
  const swipe = async (from: readonly Finger[], to: readonly Finger[]) => {
    await send("touchStart", from);
    for (let step = 1; step <= 6; step++) {
      await send(
        "touchMove",
        from.map((finger, index) => ({
          x: finger.x + (((to[index]?.x ?? finger.x) - finger.x) * step) / 6,
          y: finger.y + (((to[index]?.y ?? finger.y) - finger.y) * step) / 6,
        })),
      );
    }
    await app.page.evaluate(() => new Promise(requestAnimationFrame));
    await send("touchEnd", []);
    await app.page.waitForTimeout(NEXT_TOUCH_MS);
  };
  const worst = () =>
    size === "phone" ? app.page.textContent(".ledger-summary") : app.page.textContent(".ledger-counts");

  it.each([
    ["section", "tip", -20, 40],
    ["plan", "load", 24, -10],
  ] as const)("in the %s, a finger moves the %s", async (view, id, dx, dy) => {
    await app.page.locator(`.is-${view}`).scrollIntoViewIfNeeded();
    const said = await handleText(app.page, view, id);
    const at = await handleAt(app.page, view, id);
    await swipe([at], [{ x: at.x + dx, y: at.y + dy }]);
    await expect.poll(() => handleText(app.page, view, id)).not.toBe(said);
    await app.page.getByRole("button", { name: "Undo" }).tap();
    await expect.poll(() => handleText(app.page, view, id)).toBe(said);
  });

  it("keeps the ledger in sight", async () => {
    expect(await worst()).toMatch(/within/);
    await app.page.evaluate(() => scrollTo(0, 300));
    const box = await app.page.locator(size === "phone" ? ".ledger-summary" : ".ledger-counts").boundingBox();
    expect(box?.y).toBeGreaterThanOrEqual(0);
    expect(box?.y).toBeLessThan(200);
    await app.page.evaluate(() => scrollTo(0, 0));
  });

  it("enlarges with two fingers", async () => {
    const frame = await app.page.locator(".is-section .drawing-frame").boundingBox();
    if (frame === null) throw new Error("no drawing");
    const [x, y] = [frame.x + frame.width / 2, frame.y + frame.height / 2 + 30];
    const apart = async () =>
      (await handleAt(app.page, "section", "load")).y - (await handleAt(app.page, "section", "tip")).y;
    const before = await apart();
    await swipe(
      [
        { x: x - 30, y },
        { x: x + 30, y },
      ],
      [
        { x: x - 48, y },
        { x: x + 48, y },
      ],
    );
    // Handles drawn out of sight wait at the edge, so that the distance grows by less than the fingers' own.
    expect(await apart()).toBeGreaterThan(before * 1.1);
    await app.page.locator(".is-section").getByRole("button", { name: "Fit" }).tap();
    expect(await apart()).toBeCloseTo(before, 0);
  });

  it("offers nothing smaller than 44 px to a finger", async () => {
    const small = await app.page.$$eval(
      "button, select, summary, [role=tab], [role=slider], [role=radio], input:not([type=file])",
      (things) =>
        things
          .map((thing) => ({
            what: (thing.getAttribute("aria-label") ?? thing.textContent ?? "").slice(0, 40),
            box: thing.getBoundingClientRect(),
          }))
          .filter(({ box }) => box.width > 0 && (box.height < 43.5 || box.width < 43.5))
          .map(({ what, box }) => `${what}: ${Math.round(box.width)} × ${Math.round(box.height)}`),
    );
    expect(small).toEqual([]);
  });

  it("scrubs the evolution: section, plan and ledger move together, and come back", async () => {
    const { page } = app;
    await page.getByRole("tab", { name: "Evolution" }).tap();
    await page.waitForSelector('.evolution[data-swept="true"]');
    const rail = page.locator(".scrub-rail");
    await rail.scrollIntoViewIfNeeded();
    const box = await rail.boundingBox();
    if (box === null) throw new Error("no rail");
    const place = (share: number): Finger => ({ x: box.x + share * box.width, y: box.y + box.height / 2 });
    const slider = page.getByRole("slider", { name: "Moment of the evolution" });
    const at = async () => Number(await slider.getAttribute("aria-valuenow"));
    // Attributes in an order of their own: an element that was changed and changed back has them in another.
    const sheets = () =>
      page.$$eval(".drawing-frame > svg", (all) =>
        all.map((svg) =>
          [...svg.querySelectorAll("*")].map((one) => {
            const attributes = [...one.attributes].map(({ name, value }) => `${name}=${value}`).sort();
            return [one.tagName, ...attributes, one.children.length === 0 ? one.textContent : ""].join(" ");
          }),
        ),
      );
    await swipe([place(0.3)], [place(0.45)]);
    expect(await at()).toBeCloseTo(45, 0);
    const [[section, plan], ledger, knob] = [await sheets(), await ledgerOf(page), await at()];
    // A slanted stroke is a stroke along: a gloved finger does not keep to a line.
    await swipe([place(0.45)], [{ x: place(0.62).x, y: box.y - 60 }]);
    expect(await at()).toBeCloseTo(62, 0);
    const [movedSection, movedPlan] = await sheets();
    expect(movedSection).not.toEqual(section);
    expect(movedPlan).not.toEqual(plan);
    await expect.poll(() => ledgerOf(page)).not.toEqual(ledger);
    await swipe([place(0.62)], [place(0.45)]);
    expect(await at()).toBe(knob);
    expect(await sheets()).toEqual([section, plan]);
    await expect.poll(() => ledgerOf(page)).toEqual(ledger);
    await page.getByRole("button", { name: "Leave the evolution" }).tap();
  });

  it("leaves the ledger as it was", async () => {
    expect(Object.keys(await ledgerOf(app.page)).length).toBeGreaterThan(20);
    expect(app.errors).toEqual([]);
  });
});
