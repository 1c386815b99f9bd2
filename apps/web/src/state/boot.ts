import { EXAMPLES, evaluate, newPlan, type Plan, readPlan } from "@gantline/plan";
import { indexedDbPlanStore, memoryPlanStore, type PlanStore } from "@gantline/runtime";
import { autosave } from "./autosave.ts";
import { createDesk, deskActions } from "./desk.ts";
import type { Bench } from "./desk-context.tsx";
import { evolveWorker, keepEvolution } from "./keep-evolution.ts";
import { keepLetGo, letGoWorker } from "./keep-let-go.ts";
import { clearLastWords, readLastWords } from "./last-words.ts";
import { newId } from "./new-id.ts";
import { planShelf } from "./plan-shelf.ts";
import { watchShared } from "./watch-shared.ts";

/** Opens the store, puts the plan last worked on (or the first example) on the desk, and begins to keep what changes. */
export async function boot(): Promise<Bench> {
  const opening = indexedDbPlanStore().catch(() => null);
  // While the store opens nothing else is to be done; and what is worked out for any plan is worked out sooner for the next.
  const first = EXAMPLES[0]?.plan ?? newPlan("New plan");
  const evaluation = evaluate(first);
  const kept = await opening;
  const store = kept ?? memoryPlanStore();
  await takeLastWords(store);
  const found = await lastPlan(store, first);
  const id = found.id ?? newId();
  const desk = createDesk(id, found.plan, found.plan === first ? evaluation : undefined);
  const actions = deskActions(desk);
  const now = () => Date.now();
  if (found.id === null) await store.write({ id, name: found.plan.name, savedAtMs: now(), document: found.plan });
  await store.noteOpened(id);
  const flush = autosave(desk, store, now, (fine) =>
    desk.setState({ storage: fine && kept !== null ? "kept" : "refused" }),
  );
  const shelf = planShelf(desk, actions, store, flush, now);
  desk.setState({ storage: kept === null ? "refused" : "kept" });
  if (found.unreadable !== null) {
    actions.tell({
      kind: "problem",
      title: `“${found.unreadable}”, which was open last, cannot be read by this version. It is left as it is.`,
      lines: [],
    });
  }
  await shelf.refresh();
  watchShared(desk, actions);
  keepEvolution(desk, evolveWorker);
  return { store: desk, actions, shelf, letGoSweep: keepLetGo(desk, letGoWorker) };
}

/** A change that a killed tab put down but could not write is written now. */
async function takeLastWords(store: PlanStore): Promise<void> {
  const words = readLastWords();
  if (words === null) return;
  const stored = await store.read(words.id);
  if (stored !== null && stored.savedAtMs < words.savedAtMs && readPlan(words.document).ok) await store.write(words);
  clearLastWords();
}

async function lastPlan(
  store: PlanStore,
  otherwise: Plan,
): Promise<{ id: string | null; plan: Plan; unreadable: string | null }> {
  const id = await store.lastOpened();
  const stored = id === null ? null : await store.read(id);
  const read = stored === null ? null : readPlan(stored.document);
  if (read?.ok) return { id, plan: read.plan, unreadable: null };
  return { id: null, plan: otherwise, unreadable: stored?.name ?? null };
}
