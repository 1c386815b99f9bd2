import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleText, ledgerOf, openApp } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** The main job with no pointer at all: every key goes to whatever has the focus. */
describe("by keyboard", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
  });
  afterAll(() => browser.close());

  /** Presses Tab until what has the focus fits, as a person would. */
  const tabTo = async (label: RegExp) => {
    for (let press = 0; press < 400; press++) {
      await app.page.keyboard.press("Tab");
      const focused = await app.page.evaluate(() => {
        const at = document.activeElement as HTMLElement | null;
        const label = at?.id ? document.querySelector(`label[for="${CSS.escape(at.id)}"]`)?.textContent : null;
        return at?.getAttribute("aria-label") ?? label ?? at?.textContent ?? "";
      });
      if (label.test(focused)) return;
    }
    throw new Error(`Tab never came to ${label}`);
  };
  const metres = (text: string | null) =>
    [...(text ?? "").replaceAll("\u2212", "-").matchAll(/-?[\d.]+/g)].map(([number]) => Number(number));

  it("reaches every handle and moves it by 0.1 m, 1 m and 1 cm", async () => {
    await tabTo(/^Load/);
    const start = metres(await handleText(app.page, "section", "load"));
    for (const [key, step] of [
      ["ArrowUp", 0.1],
      ["Shift+ArrowUp", 1],
      ["Alt+ArrowUp", 0.01],
    ] as const) {
      const before = metres(await handleText(app.page, "section", "load"));
      await app.page.keyboard.press(key);
      const after = metres(await handleText(app.page, "section", "load"));
      expect((after[1] ?? Number.NaN) - (before[1] ?? Number.NaN)).toBeCloseTo(step, 6);
    }
    for (let press = 0; press < 3; press++) await app.page.keyboard.press("Control+z");
    expect(metres(await handleText(app.page, "section", "load"))).toEqual(start);
    await app.page.keyboard.press("Control+Shift+z");
    expect(metres(await handleText(app.page, "section", "load"))).not.toEqual(start);
    await app.page.keyboard.press("Control+z");
  });

  it("enlarges and moves a drawing, and shows all of it again", async () => {
    await tabTo(/Plan.*plus and minus/);
    const scale = () =>
      app.page.$eval(".is-plan .drawing-frame > svg", (svg) => svg.innerHTML.length + (svg.textContent ?? ""));
    const fitted = await scale();
    await app.page.keyboard.press("+");
    await app.page.keyboard.press("ArrowLeft");
    await expect.poll(scale).not.toBe(fitted);
    await app.page.keyboard.press("0");
    await expect.poll(scale).toBe(fitted);
  });

  it("opens a form, writes a length as people do, and the plan takes it", async () => {
    await tabTo(/^Open forms/);
    await app.page.keyboard.press("Enter");
    await app.page.waitForSelector('[data-path="aerial.pose.lengthM"] input');
    await app.page.keyboard.press("Shift+Tab");
    await tabTo(/^Length, pivot to tip/);
    const before = await ledgerOf(app.page);
    await app.page.keyboard.press("Control+a");
    await app.page.keyboard.type("65 ft 6 in");
    await app.page.keyboard.press("Enter");
    expect(await app.page.inputValue('[data-path="aerial.pose.lengthM"] input')).toBe("19.9644 m");
    expect(await ledgerOf(app.page)).not.toEqual(before);
  });

  it("keeps wrong text in the field, says what is wrong there and in the ledger, and leaves the plan as it was", async () => {
    const { page } = app;
    const before = await ledgerOf(page);
    await page.keyboard.press("Control+a");
    await page.keyboard.type("about twenty");
    await page.keyboard.press("Tab");
    const field = page.locator('[data-path="aerial.pose.lengthM"]');
    expect(await field.locator("input").inputValue()).toBe("about twenty");
    expect(await field.locator("[role=alert]").textContent()).toMatch(/about twenty.*18 ft 6 in/);
    expect(await page.locator(".ledger-column .ledger-problems").textContent()).toContain("about twenty");
    expect(await ledgerOf(page)).toEqual(before);
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Escape");
    expect(await field.locator("input").inputValue()).toBe("19.9644 m");
    expect(await page.locator(".ledger-column .ledger-problems").count()).toBe(0);
  });

  it("shows the working of a check and goes from it to the field", async () => {
    const { page } = app;
    await page.locator(".ledger-column .ledger-head").first().focus();
    await page.keyboard.press("Enter");
    await page.waitForSelector(".ledger-column .working");
    await page.keyboard.press("Enter");
    expect(await page.locator(".ledger-column .working").count()).toBe(0);
  });

  it("changes the units everywhere", async () => {
    const { page } = app;
    await page.getByRole("radio", { name: "ft, lbf" }).focus();
    await page.keyboard.press("Enter");
    expect(await page.inputValue('[data-path="aerial.pose.lengthM"] input')).toBe("65 ft 6 in");
    expect(await page.textContent(".is-section .drawing-frame > svg")).toMatch(/lbf/);
    expect(await page.textContent(".is-section .drawing-frame > svg")).not.toMatch(/kN/);
  });

  it("reports no error", () => expect(app.errors).toEqual([]));
});
