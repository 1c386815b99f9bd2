import { describe, it } from "vitest";
import { memoryPlanStore } from "./memory-plan-store.ts";
import { planStoreAcceptance } from "./plan-store-acceptance.ts";

/** The same cases are asked of the IndexedDB store in a real browser: `e2e/plan-store.e2e.ts`. */
describe("memoryPlanStore", () => {
  for (const { title, run } of planStoreAcceptance) {
    it(title, async () => {
      const store = memoryPlanStore();
      await run(async () => store);
    });
  }
});
