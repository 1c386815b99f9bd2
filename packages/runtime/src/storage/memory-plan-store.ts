import type { PlanStore, StoredPlan } from "./plan-store.ts";

/** A plan store that forgets everything when the program ends: for tests, and for browsers that refuse storage. */
export function memoryPlanStore(): PlanStore {
  const plans = new Map<string, StoredPlan>();
  let last: string | null = null;
  return {
    list: async () =>
      [...plans.values()]
        .map(({ id, name, savedAtMs }) => ({ id, name, savedAtMs }))
        .sort((a, b) => b.savedAtMs - a.savedAtMs),
    read: async (id) => structuredClone(plans.get(id) ?? null),
    write: async (plan) => void plans.set(plan.id, structuredClone(plan)),
    remove: async (id) => void plans.delete(id),
    lastOpened: async () => (last !== null && plans.has(last) ? last : null),
    noteOpened: async (id) => {
      last = id;
    },
    close: async () => {},
  };
}
