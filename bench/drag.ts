import type { Browser } from "playwright-core";
import { inBrowser } from "./in-browser.ts";
import { type BenchReport, summarise } from "./measure.ts";

const STEPS = 160;
/** Steps before those that count: until the browser has made most of the code quick. */
const WARMUP = 200;
/** By then a page that was just opened has swept its evolution and let every line go, ms. */
const SETTLED_MS = 6000;

/**
 * What one step of dragging costs in the built app: from the start of the frame that takes the pointer's move, through
 * evaluation, drawing, style and layout, to the end of painting of what is in hand; and until the other drawing and the
 * ledger have followed, which may take until the next frame. Likewise one step of scrubbing through the evolution, and of
 * dragging a way point while it is swept anew. Aim: 95 % below 16 ms. First stands a peer in the same run: a frame in which one
 * ring of the drawing is moved by hand; then the first drag there is, told apart, as the browser makes code quick meanwhile.
 */
export const benchDrag = (): Promise<BenchReport> => inBrowser(drags);

async function drags(browser: Browser, url: string): Promise<BenchReport> {
  const page = await browser.newPage({ viewport: { width: 1366, height: 1024 } });
  await page.goto(url);
  await page.locator('.is-section [data-handle="tip"]').waitFor();
  await page.waitForTimeout(SETTLED_MS);
  const report: Record<string, BenchReport[string]> = {};
  const note = (what: string, steps: readonly Step[]) => {
    const counted = steps.slice(WARMUP);
    report[`${what}, what is in hand`] = summarise(counted.map((s) => s.heldMs));
    report[`${what}, all else`] = summarise(counted.map((s) => s.allMs));
  };
  // The least a page can do: a frame in which one ring goes elsewhere. What it takes beyond its least is the machine's unrest.
  note("one ring moved, nothing else", await page.evaluate(dragFrames, { ...NOTHING, steps: STEPS + WARMUP }));
  // The hand's first drag, before the browser has made the code quick.
  const first = await page.evaluate(dragFrames, { ...sectionHandle("tip"), steps: STEPS });
  report["first drag, what is in hand"] = summarise(first.map((s) => s.heldMs));
  for (const handle of ["tip", "load"]) {
    const times = await page.evaluate(dragFrames, { ...sectionHandle(handle), steps: STEPS + WARMUP });
    note(`drag ${handle}`, times);
  }
  await page.getByRole("tab", { name: "Evolution" }).click();
  await page.locator(".scrub-track").waitFor();
  await page.waitForTimeout(1000);
  const scrubbed = await page.evaluate(dragFrames, {
    within: ".scrub-track",
    grasp: ".scrub-track",
    reachPx: [300, 0] as const,
    steps: STEPS + WARMUP,
  });
  note("scrub", scrubbed);
  await page.locator(".scrub-track").focus();
  for (const key of ["Home", "PageDown", "PageDown", "PageDown", "ArrowRight"]) await page.keyboard.press(key);
  const waypoint = await page.locator('.is-section [data-handle^="waypoint:"]').last().getAttribute("data-handle");
  const swept = await page.evaluate(dragFrames, { ...sectionHandle(waypoint ?? ""), steps: STEPS + WARMUP });
  note("drag way point", swept);
  return report;
}

interface Step {
  /** Until what is in hand is drawn where the hand is, ms. */
  readonly heldMs: number;
  /** Until everything else has followed, ms. */
  readonly allMs: number;
}

interface Drag {
  /** What hears the pointer, and what is taken hold of. */
  readonly within: string;
  readonly grasp: string;
  /** How far it is moved to either side and up and down, px. */
  readonly reachPx: readonly [number, number];
  /** A ring of the section's own drawing is moved instead, with nothing that listens. */
  readonly ring?: boolean;
}

const NOTHING: Drag = { within: "body", grasp: "body", reachPx: [0, 0], ring: true };

const sectionHandle = (id: string): Drag => ({
  within: ".is-section .drawing-frame",
  grasp: `.is-section [data-handle="${id}"]`,
  reachPx: [24, 18],
});

/** In the page: take hold of something, move it step by step, and time each step on the main thread. */
async function dragFrames({ within, grasp, reachPx, ring, steps }: Drag & { readonly steps: number }): Promise<Step[]> {
  const frame = document.querySelector(within) as HTMLElement;
  const box = (document.querySelector(grasp) as HTMLElement).getBoundingClientRect();
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  const send = (type: string, dx: number, dy: number) =>
    frame.dispatchEvent(
      new PointerEvent(type, {
        bubbles: true,
        pointerId: 7,
        pointerType: "pen",
        button: 0,
        clientX: x + dx,
        clientY: y + dy,
      }),
    );
  frame.setPointerCapture = () => {};
  const peer = ring ? document.querySelector(".is-section .drawing-frame > svg circle") : null;
  const stoodAt = peer?.getAttribute("cx") ?? "0";
  if (!ring) send("pointerdown", 0, 0);
  const { scheduler } = globalThis as unknown as {
    scheduler: { postTask: (job: () => void, options: { priority: string }) => Promise<void> };
  };
  const nextFrame = () => new Promise(requestAnimationFrame);
  // Runs before anything that waits for its turn once a frame is painted; "background" once nothing waits any more.
  const next = (priority: string) => scheduler.postTask(() => {}, { priority });
  const times: Step[] = [];
  for (let i = 0; i < steps; i++) {
    let begun = 0;
    requestAnimationFrame(() => {
      begun = performance.now();
    });
    if (peer) requestAnimationFrame(() => peer.setAttribute("cx", `${Number(stoodAt) + (i % 9)}`));
    else send("pointermove", reachPx[0] * Math.sin(i / 9), reachPx[1] * Math.cos(i / 7));
    await nextFrame();
    await next("user-blocking");
    const heldMs = performance.now() - begun;
    await next("background");
    await nextFrame();
    await next("user-blocking");
    times.push({ heldMs, allMs: performance.now() - begun });
  }
  if (peer) peer.setAttribute("cx", stoodAt);
  else send("pointerup", 0, 0);
  return times;
}
