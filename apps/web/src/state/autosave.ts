import type { PlanStore, StoredPlan } from "@gantline/runtime";
import type { Desk, DeskStore } from "./desk.ts";
import { clearLastWords, putLastWords } from "./last-words.ts";

/** After the last change the plan is in the store within this, ms. */
const DELAY_MS = 200;

/**
 * Keeps the open plan: every finished change is put down at once as last words, and written to the store soon after;
 * during a drag, and when the page is put away or closed, likewise.
 *
 * @param now the writer's clock, ms
 * @param onWritten called after each write; `false`: the store refused
 * @returns `flush`, which settles when all is written
 */
export function autosave(
  desk: DeskStore,
  store: PlanStore,
  now: () => number,
  onWritten: (kept: boolean) => void,
): () => Promise<void> {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let written: unknown = desk.getState().history.present;
  let queue: Promise<void> = Promise.resolve();

  const entry = ({ planId, history }: Desk): StoredPlan => ({
    id: planId,
    name: history.present.name,
    savedAtMs: now(),
    document: history.present,
  });

  const write = (): Promise<void> => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    const plan = entry(desk.getState());
    if (plan.document === written) return queue;
    written = plan.document;
    queue = queue
      .then(() => store.write(plan))
      .then(() => {
        if (written === plan.document) clearLastWords();
        onWritten(true);
      })
      .catch(() => {
        // Tried again at the next change.
        if (written === plan.document) written = null;
        onWritten(false);
      });
    return queue;
  };

  desk.subscribe((desk_, before) => {
    if (desk_.planId !== before.planId) {
      // Another plan was opened: it comes from the store as it is. The one before was flushed by whoever opened it.
      written = desk_.history.present;
      return;
    }
    const finished =
      desk_.moveBase === null && (before.moveBase !== null || desk_.history.present !== before.history.present);
    if (finished && desk_.history.present !== written) putLastWords(entry(desk_));
    if (desk_.history.present !== before.history.present) timer ??= setTimeout(write, DELAY_MS);
  });
  const putAway = () => {
    const state = desk.getState();
    if (state.history.present !== written) putLastWords(entry(state));
    void write();
  };
  addEventListener("pagehide", putAway);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") putAway();
  });
  return write;
}
