import { EXAMPLES, type Plan } from "@gantline/plan";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, ledgerOf, openApp } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

/** What is not for a hand to change: what the file is, and the ids that tie its parts together. */
const UNSEEN = /^(format|formatVersion)$|(^|\.)id$/;
/** Given as a whole, by a picker or a group of fields of their own. */
const PICKED = /^aerial\.device\.id$/;

/** What does not apply as the plan stands: a pose for a stage that leaves the ladder, how a line that is off the load is held. */
const idle = ({ evolution }: Plan): string[] =>
  evolution.stages.flatMap(({ action, lines }, index) => [
    ...(action === "moveLadder" ? [] : [`evolution.stages[${index}].pose`]),
    ...Object.entries(lines).flatMap(([id, { on }]) =>
      on ? [] : ["drive", "tensionN", "lengthM"].map((name) => `evolution.stages[${index}].lines.${id}.${name}`),
    ),
  ]);

/** Every value that can be put in, by its path. */
function leaves(value: unknown, path = ""): string[] {
  if (Array.isArray(value)) return value.flatMap((one, index) => leaves(one, `${path}[${index}]`));
  if (typeof value === "object" && value !== null) {
    return Object.entries(value).flatMap(([key, one]) =>
      leaves(one, path.endsWith("jackReach") ? `${path}["${key}"]` : path === "" ? key : `${path}.${key}`),
    );
  }
  return [path];
}

describe("the forms", () => {
  let browser: Browser;
  let app: AppPage;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
  });
  afterAll(() => browser.close());

  const tab = async (name: string) => {
    await app.page.getByRole("tab", { name }).click();
    await app.page.waitForSelector("#panel .group, #panel .ledger-sheet");
  };
  const unfold = () =>
    app.page.evaluate(() => {
      for (const fold of document.querySelectorAll("#panel details")) (fold as HTMLDetailsElement).open = true;
    });
  const field = (path: string) => app.page.locator(`#panel [data-path='${path}']`).first();
  const undoAll = async () => {
    const undo = app.page.getByRole("button", { name: "Undo" });
    while (await undo.isEnabled()) await undo.click();
  };

  it("have a field for every value of the plan", async () => {
    const plan = EXAMPLES[0]?.plan as Plan;
    const offered = new Set<string>();
    for (const name of ["Scene", "Stand", "Rig", "Evolution", "Policy"]) {
      await tab(name);
      await unfold();
      const paths = await app.page.$$eval("#panel [data-path]", (fields) =>
        fields.map((one) => (one as HTMLElement).dataset.path ?? ""),
      );
      for (const path of paths) offered.add(path).add(path.replace(/\["([^"]*)"\]/g, ".$1"));
    }
    const spare = idle(plan);
    const missing = leaves(plan).filter(
      (path) => !offered.has(path) && !spare.includes(path) && !UNSEEN.test(path) && !PICKED.test(path),
    );
    expect(missing).toEqual([]);
  });

  it.each([
    ["Scene", "structure", "scene.structures"],
    ["Scene", "parking ground", "scene.parking"],
    ["Scene", "ground area", "scene.areas"],
    ["Scene", "power line", "scene.powerLines"],
    ["Stand", "rigging point", "aerial.device.riggingPoints"],
    ["Stand", "vehicle anchor", "aerial.device.anchors"],
    ["Stand", "jack", "aerial.device.jacks"],
    ["Rig", "load part", "rig.load.parts"],
    ["Rig", "piece of gear", "gear"],
  ])("in %s, add a %s, copy it, remove it and undo all of it", async (name, one, path) => {
    await tab(name);
    await unfold();
    const before = await ledgerOf(app.page);
    const list = app.page.locator(`#panel section.list[data-path="${path}"]`);
    const items = list.locator("> details");
    const count = await items.count();
    await list
      .getByRole("button", { name: `Add a ${one}`, exact: true })
      .last()
      .click();
    await expect.poll(() => items.count()).toBe(count + 1);
    await unfold();
    await items.last().locator("> .list-body > .list-tools").getByRole("button", { name: "Duplicate" }).click();
    await expect.poll(() => items.count()).toBe(count + 2);
    await unfold();
    await items
      .last()
      .locator("> .list-body > .list-tools")
      .getByRole("button", { name: /^Remove/ })
      .click();
    await expect.poll(() => items.count()).toBe(count + 1);
    await undoAll();
    await expect.poll(() => items.count()).toBe(count);
    expect(await ledgerOf(app.page)).toEqual(before);
  });

  it("take a tagline away and bring another, and the drawing has it", async () => {
    await tab("Rig");
    await unfold();
    const handles = app.page.locator('.is-plan [data-handle^="tagline:"]');
    const count = await handles.count();
    const list = app.page.locator('#panel section.list[data-path="rig.taglines"]');
    await list
      .getByRole("button", { name: /^Remove/ })
      .first()
      .click();
    await expect.poll(() => handles.count()).toBe(count - 1);
    await list.getByRole("button", { name: "Add a tagline" }).click();
    await expect.poll(() => handles.count()).toBe(count);
    await undoAll();
  });

  it("add a corner to an outline and move it", async () => {
    await tab("Scene");
    await unfold();
    const rows = app.page.locator(`#panel [data-path="scene.structures[0].outline"] tbody tr`);
    const count = await rows.count();
    await app.page
      .locator(`#panel [data-path="scene.structures[0].outline"]`)
      .getByRole("button", { name: "Add a corner" })
      .click();
    await expect.poll(() => rows.count()).toBe(count + 1);
    const corner = field(`scene.structures[0].outline[${count}][0]`).locator("input");
    await corner.fill("12 ft 6 in");
    await corner.press("Enter");
    expect(await corner.inputValue()).toBe("3.81 m");
    await undoAll();
  });

  it("take a choice, a yes and a number that is not known", async () => {
    await tab("Stand");
    await field("aerial.lockedOut").locator("select").selectOption({ label: "Not known" });
    await tab("Scene");
    const gust = field("scene.wind.gustMS").locator("input");
    await gust.fill("?");
    await gust.press("Enter");
    expect(await gust.inputValue()).toBe("");
    const checks = await ledgerOf(app.page);
    const windChecks = Object.entries(checks).filter(([id]) => /^(wind|lock-out)/.test(id));
    expect(windChecks.length).toBeGreaterThan(1);
    for (const [, check] of windChecks) expect(check).toMatch(/^unknown/);
    await undoAll();
  });

  it("refuse what the plan cannot hold, with the bound in the reader's units", async () => {
    await tab("Stand");
    const steep = field("aerial.pose.elevationRad");
    await steep.locator("input").fill("120°");
    await steep.locator("input").press("Tab");
    expect(await steep.locator("[role=alert]").textContent()).toMatch(/120°.*at most 90\.0°/);
    await steep.locator("input").fill("65°");
    await steep.locator("input").press("Enter");
    await expect.poll(() => steep.locator("[role=alert]").count()).toBe(0);
    await undoAll();
  });

  it("choose another vehicle, and the pose is brought within its limits", async () => {
    await tab("Stand");
    const picker = field("aerial.device.id").locator("select");
    await picker.selectOption({ index: 0 });
    expect(Object.values(await ledgerOf(app.page)).length).toBeGreaterThan(10);
    await picker.selectOption({ index: 2 });
    await app.page.waitForTimeout(50);
    await undoAll();
    expect(app.errors).toEqual([]);
  });
});
