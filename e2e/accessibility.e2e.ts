import axe from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, openApp, SIZES } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** Each form, and the part of the page it changes: the drawings too, or only its own panel. */
const TABS = [
  ["Scene", "#panel"],
  ["Stand", "html"],
  ["Rig", "#panel"],
  ["Evolution", "html"],
  ["Let go", "html"],
  ["Ledger", "#panel"],
  ["Policy", "#panel"],
] as const;
/** With text contrast to the stricter level, 7:1. */
const RULES: axe.RunOptions = { rules: { "color-contrast-enhanced": { enabled: true } } };

/** Every size by day; by night, where only colours differ, the narrow and the wide layout. */
const SEEN = (Object.keys(SIZES) as (keyof typeof SIZES)[]).map((size) => ({
  size,
  looks: size === "small" ? (["day"] as const) : (["day", "night"] as const),
}));

describe.each(SEEN)("at the size of a $size", ({ size, looks }) => {
  describe.each(looks)("by %s", (look) => {
    let browser: Browser;
    let app: AppPage;
    beforeAll(async () => {
      browser = await openBrowser();
      app = await openApp(browser, { url: appUrl(), size, look, touch: size === "phone" });
      await app.page.evaluate(axe.source);
    });
    afterAll(() => browser.close());

    /** What is wrong in a part of the page. While a menu or a working is open, the rest is hidden from a screen reader on purpose. */
    const findings = async (part = "html"): Promise<string[]> => {
      const { violations } = await app.page.evaluate(
        ([at, rules]) => (globalThis as unknown as { axe: typeof axe }).axe.run(at, rules),
        [part, RULES] as const,
      );
      return violations.flatMap(({ id, nodes }) =>
        nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`),
      );
    };
    const overflow = () =>
      app.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

    it("has nothing to object to in the sheet at first sight", async () => {
      expect(await findings()).toEqual([]);
      expect(await overflow()).toBeLessThanOrEqual(0);
    });

    it.each(TABS)("has nothing to object to in %s with everything unfolded", async (tab, part) => {
      await app.page.getByRole("tab", { name: tab }).click();
      await app.page.waitForSelector("#panel .group, #panel .ledger-sheet, #panel .case-figures");
      await app.page.evaluate(() => {
        for (const fold of document.querySelectorAll("#panel details")) (fold as HTMLDetailsElement).open = true;
      });
      expect(await findings(part)).toEqual([]);
      expect(await overflow()).toBeLessThanOrEqual(0);
    });

    it("has nothing to object to in an open check, an asked figure and the plans menu", async () => {
      await app.page.getByRole("tab", { name: "Ledger" }).click();
      const ledger = size === "phone" ? ".ledger-narrow" : ".ledger-column";
      await app.page.locator(`${ledger} .ledger-head`).first().click();
      await app.page.waitForSelector(`${ledger} .working`);
      expect(await findings()).toEqual([]);
      await app.page.locator(".askable").first().click();
      await app.page.waitForSelector(".why");
      expect(await findings("#overlays")).toEqual([]);
      await app.page.keyboard.press("Escape");
      await app.page.getByRole("button", { name: "Plans" }).click();
      await app.page.waitForSelector("[role=menu]");
      expect(await findings("#overlays")).toEqual([]);
    });
  });
});
