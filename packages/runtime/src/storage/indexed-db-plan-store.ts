import { type DBSchema, openDB } from "idb";
import type { PlanStore, StoredPlan } from "./plan-store.ts";

interface Shape extends DBSchema {
  plans: { key: string; value: StoredPlan; indexes: { savedAtMs: number } };
  notes: { key: "lastOpened"; value: string };
}

/**
 * A plan store in the browser's IndexedDB. Writes are strictly durable: they survive a killed tab.
 *
 * @param name of the database; another name is another, separate store
 * @throws (rejects) where the browser refuses storage, as some do in private windows
 */
export async function indexedDbPlanStore(name = "gantline"): Promise<PlanStore> {
  const db = await openDB<Shape>(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore("plans", { keyPath: "id" }).createIndex("savedAtMs", "savedAtMs");
      fresh.createObjectStore("notes");
    },
    // Another tab with a newer build wants to change the shape: let it.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  });
  return {
    list: async () => {
      const plans = await db.getAllFromIndex("plans", "savedAtMs");
      return plans.reverse().map(({ id, name: title, savedAtMs }) => ({ id, name: title, savedAtMs }));
    },
    read: async (id) => (await db.get("plans", id)) ?? null,
    write: async (plan) => {
      const change = db.transaction("plans", "readwrite", { durability: "strict" });
      await Promise.all([change.store.put(plan), change.done]);
    },
    remove: async (id) => db.delete("plans", id),
    lastOpened: async () => {
      const id = await db.get("notes", "lastOpened");
      return id !== undefined && (await db.getKey("plans", id)) !== undefined ? id : null;
    },
    noteOpened: async (id) => void (await db.put("notes", id, "lastOpened")),
    close: async () => db.close(),
  };
}
