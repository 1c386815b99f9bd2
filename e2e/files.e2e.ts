import { readFile } from "node:fs/promises";
import { EXAMPLES } from "@gantline/plan";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleText, ledgerOf, openApp, ready, SAVED_AFTER_MS } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

const example = EXAMPLES[0]?.plan;

/** Plans as files and on the shelf. */
describe("files and plans", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
  });
  afterAll(() => browser.close());

  const menu = async (item: string | RegExp) => {
    await app.page.getByRole("button", { name: "Plans" }).click();
    await app.page.getByRole("menuitem", { name: item }).first().click();
  };
  const open = (name: string, text: string) =>
    app.page.setInputFiles("input[type=file]", { name, mimeType: "application/json", buffer: Buffer.from(text) });
  const title = () => app.page.textContent(".plan-name h2");

  it("shows the first example at first", async () => {
    expect(await title()).toBe(example?.name);
    expect(await app.page.textContent(".caution")).toMatch(/Example data.*planning aid/s);
  });

  it.each([
    ["text that is no JSON", "{ not json", /JSON/],
    ["another kind of document", '{"format":"recipe"}', /format.*recipe.*gantline-plan/],
    [
      "a plan with a wrong field",
      JSON.stringify({ ...example, scene: { ...example?.scene, groundZM: "high" } }),
      /scene\.groundZM.*high.*number/,
    ],
    ["a plan of a newer version", JSON.stringify({ ...example, formatVersion: 99 }), /99.*expected \d+ or less/],
  ])("refuses %s, says why, and changes nothing", async (_, text, why) => {
    const before = await ledgerOf(app.page);
    await open("wrong.gantline.json", text);
    const alert = app.page.locator(".notice[role=alert]");
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(why);
    expect(await ledgerOf(app.page)).toEqual(before);
    expect(await title()).toBe(example?.name);
    await alert.getByRole("button", { name: "Close", exact: true }).click();
  });

  it("saves the plan as a file that opens again as the same plan", async () => {
    const [download] = await Promise.all([app.page.waitForEvent("download"), menu("Save as a file")]);
    expect(download.suggestedFilename()).toMatch(/\.gantline\.json$/);
    const text = await readFile(await download.path(), "utf8");
    expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(example)));
    const before = await ledgerOf(app.page);
    await open("again.gantline.json", text.replace(String(example?.name), "Opened from a file"));
    await expect.poll(title).toBe("Opened from a file");
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it("opens a file that is let go over the page", async () => {
    const text = JSON.stringify({ ...example, name: "Dropped" });
    await app.page.evaluate((dropped) => {
      const carried = new DataTransfer();
      carried.items.add(new File([dropped], "dropped.json", { type: "application/json" }));
      document.body.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer: carried }));
    }, text);
    await expect.poll(title).toBe("Dropped");
  });

  it("keeps several plans apart, and opens the last one again", async () => {
    await menu("Duplicate this plan");
    await expect.poll(title).toBe("Dropped (copy)");
    const before = await handleText(app.page, "section", "load");
    await app.page.locator('.is-section [data-handle="load"]').focus();
    await app.page.keyboard.press("Shift+ArrowUp");
    const moved = await handleText(app.page, "section", "load");
    await menu(/^Dropped$/);
    await expect.poll(title).toBe("Dropped");
    await expect.poll(() => handleText(app.page, "section", "load")).toBe(before);
    await menu(/^Dropped \(copy\)$/);
    await expect.poll(title).toBe("Dropped (copy)");
    await expect.poll(() => handleText(app.page, "section", "load")).toBe(moved);
    await app.page.waitForTimeout(SAVED_AFTER_MS);
    await app.page.reload();
    await ready(app.page);
    expect(await title()).toBe("Dropped (copy)");
    await expect.poll(() => handleText(app.page, "section", "load")).toBe(moved);
  });

  it("deletes the open plan and opens another, and puts it back", async () => {
    const kept = await ledgerOf(app.page);
    await menu("Delete this plan");
    await expect.poll(title).not.toBe("Dropped (copy)");
    await app.page.getByRole("button", { name: "Put it back" }).click();
    await expect.poll(title).toBe("Dropped (copy)");
    expect(await ledgerOf(app.page)).toEqual(kept);
    await menu("Delete this plan");
    await expect.poll(title).not.toBe("Dropped (copy)");
    await app.page.getByRole("button", { name: "Close", exact: true }).click();
    await app.page.getByRole("button", { name: "Plans" }).click();
    await expect.poll(() => app.page.getByRole("menuitem", { name: "Dropped (copy)" }).count()).toBe(0);
    await app.page.keyboard.press("Escape");
  });

  it("begins a new plan, which says what is not known", async () => {
    await menu("New plan");
    await expect.poll(title).toBe("New plan");
    expect(
      Object.values(await ledgerOf(app.page)).filter((check) => check.startsWith("unknown")).length,
    ).toBeGreaterThan(3);
  });

  it("says so where the same plan is open in a second window", async () => {
    const second = await app.context.newPage();
    await second.goto(appUrl());
    await ready(second);
    const alert = second.locator(".notice[role=alert]");
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(/another window/);
    await second.close();
  });

  it("opens both examples", async () => {
    for (const one of EXAMPLES) {
      await menu(one.title);
      await expect.poll(title).toBe(one.plan.name);
    }
    expect(app.errors).toEqual([]);
  });
});
