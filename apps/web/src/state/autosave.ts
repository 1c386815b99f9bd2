import type { PlanStore } from "@gantline/runtime";
import type { DeskStore } from "./desk.ts";

/** After the last change the plan is written within this, ms. */
const DELAY_MS = 200;

/**
 * Writes the open plan after every change, soon after it and at once when the page is put away or closed.
 *
 * @param now the writer's clock, ms
 * @param onWritten called after each write; `false`: the store refused
 * @returns `flush`, which settles when all is written
 */
export function autosave(desk: DeskStore, store: PlanStore, now: () => number, onWritten: (kept: boolean) => void): () => Promise<void> {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let written = desk.getState().history.present;
  let queue: Promise<void> = Promise.resolve();

  const write = (): Promise<void> => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    const { planId, history } = desk.getState();
    if (history.present === written) return queue;
    const document = history.present;
    written = document;
    queue = queue
      .then(() => store.write({ id: planId, name: document.name, savedAtMs: now(), document }))
      .then(() => onWritten(true))
      .catch(() => {
        // Tried again at the next change.
        if (written === document) written = { ...document };
        onWritten(false);
      });
    return queue;
  };

  desk.subscribe((now_, before) => {
    if (now_.planId !== before.planId) {
      // Another plan was opened: it comes from the store as it is. The one before was flushed by whoever opened it.
      written = now_.history.present;
      if (timer !== null) clearTimeout(timer);
      timer = null;
      return;
    }
    if (now_.history.present === before.history.present) return;
    timer ??= setTimeout(write, DELAY_MS);
  });
  addEventListener("pagehide", () => void write());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") void write();
  });
  return write;
}
