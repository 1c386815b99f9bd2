import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeRatio } from "@gantline/plan";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type AppPage, handleAt, ledgerOf, openApp } from "./app-page.ts";
import { appUrl, openBrowser } from "./open-browser.ts";

const CLI = join(import.meta.dirname, "..", "apps", "cli", "bin", "gantline.mjs");

interface Row {
  readonly id: string;
  readonly status: string;
  readonly ratio: number | null;
}

/** The ledger as the command line gives it. Exit status 1 says that something is over or unknown, which is no fault here. */
function checkedByCommandLine(file: string): Row[] {
  let output: string;
  try {
    output = execFileSync(process.execPath, [CLI, "check", file, "--json"], { encoding: "utf8" });
  } catch (error) {
    const failed = error as { status: number; stdout: string };
    expect(failed.status).toBe(1);
    output = failed.stdout;
  }
  const { ledger } = JSON.parse(output) as { ledger: Row[] };
  return ledger.map(({ id, status, ratio }) => ({ id, status, ratio }));
}

/** Sine, cosine and powers of two JavaScript engines may differ in the last of sixteen figures; nothing shown does. */
const SAME = 1e-12;

/** The web app and the command line give the same answers, to the last digit shown, to the same plan. */
describe("web and command line", () => {
  let browser: Browser;
  let app: AppPage;
  let folder: string;
  beforeAll(async () => {
    browser = await openBrowser();
    app = await openApp(browser, { url: appUrl() });
    folder = mkdtempSync(join(tmpdir(), "gantline-"));
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true, force: true });
    await browser.close();
  });

  const ledgerShown = (): Promise<Row[]> =>
    app.page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>(".ledger [data-check-id]")].map(({ dataset }) => ({
        id: dataset.checkId ?? "",
        status: dataset.status ?? "",
        ratio: dataset.ratio === "" ? null : Number(dataset.ratio),
      })),
    );

  /** The plan on screen, as the app saves it. */
  const savedPlan = async (): Promise<string> => {
    await app.page.getByRole("button", { name: "Plans" }).click();
    const [saved] = await Promise.all([
      app.page.waitForEvent("download"),
      app.page.getByRole("menuitem", { name: "Save as a file" }).click(),
    ]);
    const path = join(folder, "plan.gantline.json");
    writeFileSync(path, readFileSync(await saved.path()));
    return path;
  };

  it("agree on the example plan, and on it after the tip and the load were dragged", async () => {
    for (const [handle, dx, dy] of [
      [null, 0, 0],
      ["tip", -18, 22],
      ["load", 13, -31],
    ] as const) {
      if (handle !== null) {
        const { x, y } = await handleAt(app.page, "section", handle);
        await app.page.mouse.move(x, y);
        await app.page.mouse.down();
        await app.page.mouse.move(x + dx, y + dy, { steps: 5 });
        await app.page.mouse.up();
      }
      await ledgerOf(app.page);
      const shown = await ledgerShown();
      expect(shown.length).toBeGreaterThan(50);
      const printed = checkedByCommandLine(await savedPlan());
      const asShown = (rows: readonly Row[]) => rows.map((r) => `${r.id} ${r.status} ${writeRatio(r.ratio)}`).sort();
      expect(asShown(shown)).toEqual(asShown(printed));
      const ratios = new Map(printed.map((r) => [r.id, r.ratio]));
      for (const { id, ratio } of shown) {
        if (ratio !== null) expect(Math.abs(ratio - (ratios.get(id) ?? Number.NaN)), id).toBeLessThan(SAME);
      }
    }
  });
});
