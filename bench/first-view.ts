import type { CDPSession } from "playwright-core";
import { inBrowser } from "./in-browser.ts";
import { type BenchReport, summarise } from "./measure.ts";

const SLOWDOWN = 4;
const LOADS = 8;
/** There as soon as the section can be taken hold of. */
const USABLE = '.is-section [data-handle="tip"]';
const LOOK_EVERY_MS = 100;
const GIVE_UP_MS = 60_000;

/**
 * How long does the app take, opened for the first time, until the section can be taken hold of: as the machine is, and with
 * the processor slowed four times (aim: 2 s)?
 *
 * The page is loaded with no debugger on its scripts: with one, each error object a library makes costs the places in its
 * source, a fifth of the time.
 */
export const benchFirstView = (): Promise<BenchReport> =>
  inBrowser(async (browser, url) => {
    const control = await browser.newBrowserCDPSession();
    const timed = async (rate: number) => {
      const timesMs: number[] = [];
      for (let load = 0; load < LOADS; load++) timesMs.push(await usableMs(control, url, rate));
      return summarise(timesMs);
    };
    return { usable: await timed(1), [`usable at ${SLOWDOWN}× slowdown`]: await timed(SLOWDOWN) };
  });

/** From the page's own clock; the browser's data is new each time. */
async function usableMs(control: CDPSession, url: string, rate: number): Promise<number> {
  const { browserContextId } = await control.send("Target.createBrowserContext");
  const page = { url: "about:blank", browserContextId, width: 1366, height: 1024 };
  const { targetId } = await control.send("Target.createTarget", page);
  const { sessionId } = await control.send("Target.attachToTarget", { targetId, flatten: false });
  const send = sender(control, sessionId);
  await send("Emulation.setCPUThrottlingRate", { rate });
  await send("Page.enable", {});
  await send("Page.addScriptToEvaluateOnNewDocument", { source: `(${noteUsable})(${JSON.stringify(USABLE)})` });
  await send("Page.navigate", { url });
  const begun = performance.now();
  for (;;) {
    await new Promise((settle) => setTimeout(settle, LOOK_EVERY_MS));
    const told = (await send("Runtime.evaluate", { expression: "globalThis.usableMs" })) as {
      result: { value?: number };
    };
    if (told.result.value !== undefined || performance.now() - begun > GIVE_UP_MS) {
      await control.send("Target.disposeBrowserContext", { browserContextId });
      if (told.result.value === undefined) throw new Error(`The page was not usable within ${GIVE_UP_MS} ms.`);
      return told.result.value;
    }
  }
}

/** Sends commands to a page through the browser, without the listeners that a page of the driver's own has. */
function sender(control: CDPSession, sessionId: string) {
  const waiting = new Map<number, (answer: unknown) => void>();
  let last = 0;
  control.on("Target.receivedMessageFromTarget", (told) => {
    if (told.sessionId !== sessionId) return;
    const { id, result } = JSON.parse(told.message) as { id?: number; result?: unknown };
    if (id !== undefined) waiting.get(id)?.(result);
  });
  return (method: string, params: object): Promise<unknown> =>
    new Promise((settle) => {
      last += 1;
      waiting.set(last, settle);
      const message = JSON.stringify({ id: last, method, params });
      void control.send("Target.sendMessageToTarget", { sessionId, message });
    });
}

/** In the page, before its scripts: notes when a thing is first there. */
function noteUsable(thing: string): void {
  new MutationObserver((_, watch) => {
    if (document.querySelector(thing) === null) return;
    watch.disconnect();
    Object.assign(globalThis, { usableMs: performance.now() });
  }).observe(document, { childList: true, subtree: true });
}
