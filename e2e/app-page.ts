import type { Browser, BrowserContext, Page } from "playwright-core";

/** The three sizes the sheet is laid out for: a large tablet, a small one, a phone. */
export const SIZES = {
  tablet: { width: 1366, height: 1024 },
  small: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;

export interface AppOptions {
  readonly url: string;
  readonly size?: keyof typeof SIZES;
  readonly look?: "day" | "night";
  readonly touch?: boolean;
  /** Of a plan with stages: which ledger is shown. Left out, that of the place or moment that is drawn. */
  readonly ledger?: "evolution" | "moment";
  /** Left out, the page's own service worker is kept from starting. */
  readonly serviceWorker?: boolean;
}

/** The app in a fresh browser profile, ready to be worked with. Anything the page reports as an error fails the test that closes it. */
export interface AppPage {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly errors: readonly string[];
}

export async function openApp(
  browser: Browser,
  { url, size = "tablet", look = "day", touch = false, ledger = "moment", serviceWorker = false }: AppOptions,
): Promise<AppPage> {
  const context = await browser.newContext({
    viewport: SIZES[size],
    hasTouch: touch,
    acceptDownloads: true,
    serviceWorkers: serviceWorker ? "allow" : "block",
  });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  await page.addInitScript(
    (chosen) => {
      for (const [name, value] of Object.entries(chosen))
        if (localStorage.getItem(name) === null) localStorage.setItem(name, value);
    },
    { "gantline.look": look, "gantline.ledger": ledger },
  );
  await page.goto(url);
  await ready(page);
  return { context, page, errors };
}

/** Both drawings and the ledger are there. */
export async function ready(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      document.querySelectorAll(".drawing-frame > svg").length === 2 &&
      document.querySelector("[data-check-id]") !== null,
  );
}

/** A handle's place on the page, px. */
export async function handleAt(page: Page, view: "section" | "plan", id: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(`.drawing.is-${view} [data-handle="${id}"]`).boundingBox();
  if (box === null) throw new Error(`There is no handle ${id} in the ${view}.`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Where a handle says it is, in words, once the drawing has caught up with the plan. */
export async function handleText(page: Page, view: "section" | "plan", id: string): Promise<string | null> {
  await page.evaluate(() => new Promise((shown) => requestAnimationFrame(() => setTimeout(shown))));
  const drawing = page.locator(`.drawing.is-${view}`);
  await drawing.and(page.locator(':not([aria-busy="true"])')).waitFor({ state: "attached" });
  return drawing.locator(`[data-handle="${id}"]`).getAttribute("aria-valuetext");
}

/** Every check's status and ratio, as the ledger shows them now. */
export const ledgerNow = (page: Page): Promise<Record<string, string>> =>
  page.$$eval(".ledger-column [data-check-id]", (rows) =>
    Object.fromEntries(
      rows.map((row) => [
        (row as HTMLElement).dataset.checkId,
        `${(row as HTMLElement).dataset.status} ${(row as HTMLElement).dataset.ratio}`,
      ]),
    ),
  );

/** The same once the sweep it is of has caught up with the plan. */
export async function ledgerOf(page: Page): Promise<Record<string, string>> {
  await page.evaluate(() => new Promise((shown) => requestAnimationFrame(() => setTimeout(shown))));
  await page.locator('.ledger-column .ledger[aria-busy="false"]').waitFor({ state: "attached" });
  return ledgerNow(page);
}

/** Long enough for the plan to have been written after a change, ms. */
export const SAVED_AFTER_MS = 500;
