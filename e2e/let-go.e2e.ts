import { readFileSync } from "node:fs";
import { EXAMPLES } from "@gantline/plan";
import axe from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, openApp, SIZES } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** The first example: lines are let go one by one, over the whole evolution, part by part, and as other techniques would have it. */
describe("when something lets go", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl(), ledger: "evolution" });
    await app.page.getByRole("tab", { name: "Let go" }).click();
    await app.page.locator(".case-figures").waitFor();
  });
  afterAll(() => browser.close());

  const drawn = (view: "section" | "plan") =>
    app.page.$eval(`.is-${view} .drawing-frame > svg`, (svg) => svg.textContent ?? "");
  const sweep = () => app.page.locator(".sweep-go[data-phase]");
  const phase = () => sweep().getAttribute("data-phase");
  const kN = (text: string): number => Number.parseFloat(/[\d.]+(?=\u202fkN)/.exec(text)?.[0] ?? "");

  it("shows what the model leaves out beside the figures, however far down one reads", async () => {
    const limits = app.page.locator(".let-go-limits summary");
    expect(await limits.textContent()).toContain("knots that tighten");
    await app.page.locator(".case-figures tbody tr").last().scrollIntoViewIfNeeded();
    expect(await limits.isVisible()).toBe(true);
    const [box, panel] = [
      await limits.boundingBox(),
      await app.page.locator("#panel .panel-body:visible").boundingBox(),
    ];
    expect((box?.y ?? 0) - (panel?.y ?? 0)).toBeGreaterThanOrEqual(-1);
    await limits.click();
    expect(await app.page.locator(".let-go-limits li").count()).toBeGreaterThan(3);
    await limits.click();
  });

  it("lets a line go: its peak lies in its band, and both drawings show what happens", async () => {
    await app.page.getByRole("button", { name: "Main A", exact: true }).click();
    await app.page.locator('.case-figures[data-outcome="held"]').waitFor();
    const cells = await app.page.locator(".case-figures tbody tr").first().locator("td").allTextContents();
    const [low, entered, high] = cells.map(kN);
    expect(low).toBeGreaterThan(0);
    expect(entered).toBeGreaterThanOrEqual(low ?? Number.NaN);
    expect(high).toBeGreaterThanOrEqual(entered ?? Number.NaN);
    for (const view of ["section", "plan"] as const) {
      await expect.poll(() => drawn(view)).toContain("A goes");
      expect(await drawn(view)).toContain(`at most ${cells[2]}`);
    }
    await app.page.getByRole("button", { name: "Main B", exact: true }).click();
    await expect.poll(() => drawn("section")).toContain("B goes");
  });

  it("replays it by keys, and near the load", async () => {
    const slider = app.page.getByRole("slider", { name: "Time after the line goes" });
    await slider.focus();
    await app.page.keyboard.press("Home");
    expect(await slider.getAttribute("aria-valuetext")).toMatch(/^0\.0.s of /);
    const before = await drawn("section");
    for (let k = 0; k < 8; k++) await app.page.keyboard.press("ArrowRight");
    await expect.poll(() => drawn("section")).not.toBe(before);
    await app.page.getByRole("button", { name: "Near the load" }).click();
    await expect.poll(() => drawn("section")).toMatch(/lowest, /);
    await app.page.getByRole("button", { name: "Near the load" }).click();
    await app.page.getByRole("button", { name: "Play" }).click();
    await expect.poll(() => slider.getAttribute("aria-valuetext")).toMatch(/^[1-9]/);
    await app.page.getByRole("button", { name: "Pause" }).click();
  });

  it("gives the drawings back to the plan", async () => {
    await app.page.getByRole("button", { name: "On the drawings" }).click();
    await expect.poll(() => drawn("section")).not.toContain(" goes");
    expect(await app.page.locator(".is-section [data-handle]").count()).toBeGreaterThan(0);
    await app.page.getByRole("button", { name: "On the drawings" }).click();
    await expect.poll(() => drawn("section")).toContain(" goes");
  });

  it("works through the whole evolution, is cancelled, and shows a worst moment", async () => {
    await expect.poll(phase, { timeout: 180_000 }).toBe("done");
    await sweep().getByRole("button", { name: "Work through the evolution" }).click();
    await sweep().getByRole("button", { name: "Cancel" }).click();
    expect(await phase()).toBe("stopped");
    await sweep().getByRole("button", { name: "Work through the evolution" }).click();
    await expect.poll(phase, { timeout: 180_000 }).toBe("done");
    const cuts = Number.parseInt((await sweep().textContent())?.match(/(\d+) cuts/)?.[1] ?? "", 10);
    expect(cuts).toBeGreaterThanOrEqual(400);
    const first = app.page
      .locator("tr", { has: app.page.getByRole("button", { name: /^Show this moment: Main/ }) })
      .first();
    const when = (await first.locator("td").nth(3).textContent()) ?? "";
    await first.getByRole("button").click();
    await expect.poll(() => app.page.locator(".case-moment").textContent()).toContain(when);
  });

  it("puts its checks into the ledger of the evolution, marked as its own", async () => {
    const own = app.page.locator(".ledger-column [data-let-go]");
    await expect.poll(() => own.count()).toBeGreaterThan(3);
    expect(await own.first().textContent()).toContain("If a line goes");
    expect(await app.page.locator('.ledger-column [data-check-id^="let-go/"]').count()).toBe(await own.count());
  });

  it("takes every part away in turn, worst first, each with a drawing", async () => {
    await app.page.getByRole("button", { name: "Take every part away in turn" }).click();
    const points = app.page.locator(".critical-point");
    await points.first().waitFor({ timeout: 180_000 });
    const outcomes = await app.page.locator(".critical-outcome").allTextContents();
    const rank = outcomes.map((text) =>
      ["Nothing", "Unknown", "Held"].findIndex((word) => text.trim().startsWith(word)),
    );
    expect(rank).toEqual([...rank].sort((a, b) => a - b));
    await points.first().scrollIntoViewIfNeeded();
    await points.first().locator("svg[role=img]").waitFor();
  });

  it("compares the techniques, and saves drawings and figures", async () => {
    await app.page.getByRole("button", { name: "Compare the techniques" }).click();
    await app.page.locator(".techniques tbody tr").first().waitFor({ timeout: 180_000 });
    expect(await app.page.locator(".techniques tbody tr").count()).toBe(10);
    const save = async (name: string) => {
      const [file] = await Promise.all([
        app.page.waitForEvent("download"),
        app.page.getByRole("button", { name }).click(),
      ]);
      return readFileSync(await file.path(), "utf8");
    };
    const csv = await save("Save figures as CSV");
    expect(csv.split("\r\n")[0]).toContain("tip_resultant [N]");
    expect(csv).toContain("knots that tighten");
    const svg = await save("Save drawings as SVG");
    expect(svg).toMatch(/^<svg/);
    expect(svg).toContain("knots that tighten");
    expect(svg.match(/<svg/g)?.length).toBeGreaterThan(10);
  });

  it("takes the tip to give in what is asked for, and says which it was", async () => {
    const part = app.page.getByRole("region", { name: "Other ways to rig it, side by side" });
    const says = () => part.getByRole("status").textContent();
    const sweep = app.page.getByRole("region", { name: "Over the whole evolution" });
    const swept = () => sweep.getByRole("status").textContent();
    const atTip = () => sweep.locator("tbody tr").allTextContents();
    await expect.poll(swept, { timeout: 180_000 }).toContain("By a stiff tip");
    const stiff = await atTip();
    expect(await says()).toContain("By a stiff tip");
    await app.page.getByRole("button", { name: "Let the tip give" }).click();
    await expect.poll(says).toContain("with the tip taken otherwise");
    await expect.poll(swept, { timeout: 180_000 }).toContain("The tip gives");
    const gives = await atTip();
    expect(gives).toHaveLength(stiff.length);
    expect(gives).not.toEqual(stiff);
    await part.getByRole("button", { name: "Compare the techniques" }).click();
    await expect.poll(says, { timeout: 180_000 }).toContain("The tip gives");
    await expect.poll(() => part.textContent()).toContain("with a tip that gives");
    await app.page.getByRole("button", { name: "Let the tip give" }).click();
    await part.getByRole("button", { name: "Compare the techniques" }).click();
    await expect.poll(says, { timeout: 180_000 }).toContain("By a stiff tip");
  });

  it.each(["day", "night"] as const)("has nothing to object to with all of it worked out, by %s", async (look) => {
    await app.page.getByRole("radio", { name: look === "day" ? "Day" : "Night" }).click();
    await app.page.evaluate(axe.source);
    const { violations } = await app.page.evaluate(() =>
      (globalThis as unknown as { axe: typeof axe }).axe.run("#panel", {
        rules: { "color-contrast-enhanced": { enabled: true } },
      }),
    );
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.target.join(" ")}`)).toEqual([]);
    const small = await app.page.$$eval("#panel :is(button, input, summary)", (all) =>
      all.map((one) => one.getBoundingClientRect()).filter((r) => r.height > 0 && (r.height < 44 || r.width < 44)),
    );
    expect(small).toEqual([]);
  });

  it("leaves the drawings to the plan when another form is looked at, and fits a phone", async () => {
    await app.page.setViewportSize(SIZES.phone);
    expect(
      await app.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    ).toBeLessThanOrEqual(0);
    await app.page.setViewportSize(SIZES.tablet);
    await app.page.getByRole("tab", { name: "Scene" }).click();
    await expect.poll(() => drawn("section")).not.toContain(" goes");
    expect(app.errors).toEqual([]);
  });

  it("replays a fall: on one rope the load is down by free fall when that goes", async () => {
    const [first] = EXAMPLES;
    if (!first) throw new Error("there is no example");
    const { evolution, rig } = first.plan;
    const [main] = rig.mainLines;
    const alone = {
      ...first.plan,
      evolution: { ...evolution, stages: [] },
      rig: { ...rig, mainLines: [{ ...main, share: 1 }] },
    };
    const buffer = Buffer.from(JSON.stringify(alone));
    const file = { name: "one-rope.json", mimeType: "application/json", buffer };
    await app.page.getByLabel("Open a plan file").setInputFiles(file);
    await app.page.getByRole("tab", { name: "Let go" }).click();
    await app.page.getByRole("button", { name: "Main A", exact: true }).click();
    await app.page.locator('.case-figures[data-outcome="falls"]').waitFor();
    const slider = app.page.getByRole("slider", { name: "Time after the line goes" });
    await slider.focus();
    await app.page.keyboard.press("Home");
    const marks = () => app.page.$eval(".is-section .drawing-frame > svg", (svg) => svg.innerHTML);
    const before = await marks();
    const [, endS] = /of ([\d.]+)/.exec((await slider.getAttribute("aria-valuetext")) ?? "") ?? [];
    await app.page.keyboard.press("End");
    await expect.poll(marks).not.toBe(before);
    const says = (await app.page.locator(".case-figures").textContent()) ?? "";
    // Any textbook: h = g t²/2; as far as the figures shown go.
    const [, fallM] = /falls? ([\d.]+)\s?m/.exec(says) ?? [];
    expect(Number(fallM)).toBeCloseTo((9.80665 / 2) * Number(endS) ** 2, 0);
    expect(app.errors).toEqual([]);
  });
});
