import { EXAMPLES } from "@gantline/plan";
import axe from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleText, ledgerOf, openApp, SIZES } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** Where to stand, in the first example: searched, stopped, asked, one taken into the plan and undone. */
describe("where to stand", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
    await app.page.getByRole("tab", { name: "Stand" }).click();
  });
  afterAll(() => browser.close());

  const button = (name: string | RegExp) => app.page.getByRole("button", { name });
  const phase = () => app.page.locator(".where-phase").textContent();
  const map = () => app.page.$eval(".where-map .drawing-frame > svg", (svg) => svg.innerHTML);
  const place = () => app.page.getByRole("slider", { name: "Place looked at" });
  const says = async () => (await place().getAttribute("aria-valuetext")) ?? "";
  const stand = () => handleText(app.page, "plan", "vehicle");
  const listed = () => app.page.locator('.short-list[aria-busy="false"]').waitFor({ timeout: 180_000 });
  const heading = () => handleText(app.page, "plan", "heading");

  it("is loaded when it is opened, and shows the site before anything is searched", async () => {
    expect(await app.page.locator(".where").count()).toBe(0);
    await app.page.locator("summary", { hasText: "Where to stand" }).click();
    await button("Find where to stand").waitFor();
    expect(await map()).toContain("Flood wall");
    expect(await app.page.locator(".map-key li").count()).toBe(0);
  });

  it("is stopped at once, and what was found stays", async () => {
    await app.page.locator(".where summary", { hasText: "What to look for" }).click();
    await app.page.getByLabel("A place every").selectOption({ index: 2 });
    await button("Find where to stand").click();
    await app.page.locator(".map-key li").first().waitFor();
    expect(await phase()).toContain("Searching");
    await button("Stop").click();
    expect(await phase()).toContain("Stopped");
    const [kept, looked] = [await map(), await app.page.locator(".where progress").getAttribute("value")];
    expect(Number(looked)).toBeLessThan(100);
    await app.page.waitForTimeout(400);
    expect(await map()).toBe(kept);
    expect(await app.page.locator(".where progress").getAttribute("value")).toBe(looked);
    expect(await app.page.locator(".short-list").count()).toBe(0);
  });

  it("fills the map, tells its patterns in words, and sweeps a short list", async () => {
    await app.page.getByLabel("A place every").selectOption({ index: 1 });
    await button("Search again").click();
    await expect.poll(phase, { timeout: 180_000 }).toContain("All places looked at");
    const key = await app.page.locator(".where-side .map-key li").allTextContents();
    expect(key).toContain("vehicle and ladder fit");
    expect(key).toContain("on ground to keep off");
    for (const word of key) expect(await map()).toContain(word);
    await listed();
    expect(await app.page.locator(".stand-card").count()).toBeGreaterThan(1);
    expect(await app.page.locator(".stand-card .readout").first().textContent()).not.toMatch(/NaN|undefined/);
  });

  it("says why at a touch and by arrow keys", async () => {
    const box = await app.page.locator(".where-map .drawing-frame").boundingBox();
    if (box === null) throw new Error("there is no map");
    await app.page.mouse.click(box.x + 0.5 * box.width, box.y + 0.5 * box.height);
    await app.page.locator(".place-says").waitFor();
    expect(await says()).toMatch(/Vehicle and ladder fit, in \d+ of the poses tried/);
    await place().focus();
    const seen = new Set<string>();
    for (let step = 0; step < 8; step++) {
      await app.page.keyboard.press("Shift+ArrowLeft");
      seen.add(await says());
    }
    expect([...seen].some((text) => /Does not fit\. .*\d/.test(text))).toBe(true);
    expect(await app.page.locator(".place-why").textContent()).toBe((await says()).split(/(?<=north|south)\. /)[1]);
  });

  it("draws any figure with contours in the reader's units", async () => {
    const before = await map();
    await app.page.getByLabel("The map shows").selectOption("shortest");
    await expect.poll(map).not.toBe(before);
    expect(await map()).toMatch(/\d+\.00\u202fm</);
    await button("ft, lbf")
      .or(app.page.getByRole("radio", { name: "ft, lbf" }))
      .click();
    await expect.poll(map).toMatch(/\d+\u202fft</);
    await button("m, kN")
      .or(app.page.getByRole("radio", { name: "m, kN" }))
      .click();
    await app.page.getByLabel("The map shows").selectOption("governs");
  });

  it("takes one into the plan with one touch, and undoes it with one", async () => {
    const [at, faces] = [await stand(), await heading()];
    await button("Take into the plan: stand 2").click();
    await expect.poll(async () => [await stand(), await heading()]).not.toEqual([at, faces]);
    await button("In the plan: stand 2").waitFor();
    expect(await app.page.locator(".where-stale").count()).toBe(0);
    await button("Undo").click();
    await expect.poll(async () => [await stand(), await heading()]).toEqual([at, faces]);
    expect(await button("Undo").isDisabled()).toBe(true);
  });

  it("shows what to paint on the ground", async () => {
    await button("Marks to paint for stand 1").click();
    await app.page.locator('.placement[aria-busy="false"]').waitFor();
    const rows = await app.page.locator(".tapes tbody tr").allTextContents();
    expect(rows[0]).toMatch(/Turntable.*m from/);
    expect(rows).toHaveLength(5);
    await button("Close the marks").click();
    expect(await app.page.locator(".placement").count()).toBe(0);
  });

  it("says when the plan has changed since", async () => {
    const field = app.page.locator('[data-path="aerial.place.turntableX"] input');
    await field.fill("1 m");
    await field.press("Enter");
    await app.page.locator(".where-stale").waitFor();
    await button("Undo").click();
    await expect.poll(() => app.page.locator(".where-stale").count()).toBe(0);
  });

  it("goes on while another form is looked at", async () => {
    await button("Search again").click();
    await app.page.getByRole("tab", { name: "Rig" }).click();
    await app.page.getByRole("tab", { name: "Stand" }).click();
    await listed();
    expect(app.errors).toEqual([]);
  });

  it.each(Object.keys(SIZES) as (keyof typeof SIZES)[])(
    "has nothing to object to at the size of a %s",
    async (size) => {
      await app.page.setViewportSize(SIZES[size]);
      await app.page.evaluate(axe.source);
      await button("Marks to paint for stand 1").click();
      await app.page.locator(".placement-drawing svg").waitFor();
      for (const look of ["Night", "Day"]) {
        await app.page.getByRole("radio", { name: look }).or(button(look)).first().click();
        const { violations } = await app.page.evaluate(() =>
          (globalThis as unknown as { axe: typeof axe }).axe.run("#panel", {
            rules: { "color-contrast-enhanced": { enabled: true } },
          }),
        );
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.target.join(" ")).join(", ")}`)).toEqual(
          [],
        );
      }
      const over = await app.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over).toBeLessThanOrEqual(0);
      const small = await app.page.$$eval(".where button, .where select, .where summary, .where .tick", (all) =>
        all.flatMap((one) => {
          const { width, height } = one.getBoundingClientRect();
          return width === 0 || (width >= 44 && height >= 43.9) || one.classList.contains("plain")
            ? []
            : [one.textContent];
        }),
      );
      expect(small).toEqual([]);
      await button("Close the marks").click();
    },
  );

  it("where nothing fits, says which change would make a stand possible, and takes it with its stand in one step", async () => {
    await app.page.setViewportSize(SIZES.tablet);
    const crossing = EXAMPLES[0]?.plan;
    const narrow = crossing?.scene.parking.map((p) => ({ ...p, outline: p.outline.map(([x, y]) => [x / 3, y]) }));
    const text = JSON.stringify({ ...crossing, name: "Narrow", scene: { ...crossing?.scene, parking: narrow } });
    const file = { name: "narrow.gantline.json", mimeType: "application/json", buffer: Buffer.from(text) };
    await app.page.setInputFiles("input[type=file]", file);
    await expect.poll(() => app.page.textContent(".plan-name h2")).toBe("Narrow");
    await button("Find where to stand").click();
    await app.page.locator('.advice[aria-busy="false"]').waitFor({ timeout: 180_000 });
    expect(await phase()).toContain("No stand holds");
    expect(await app.page.locator(".advice li p").first().textContent()).toMatch(/\d/);
    // The least change may be one that lets the vehicle stand where it is.
    const found = async () => ({ at: await stand(), faces: await heading(), ledger: await ledgerOf(app.page) });
    const before = await found();
    await app.page.locator(".advice .take").first().click();
    await expect.poll(found).not.toEqual(before);
    await button("Undo").click();
    await expect.poll(found).toEqual(before);
    expect(app.errors).toEqual([]);
  });
});
