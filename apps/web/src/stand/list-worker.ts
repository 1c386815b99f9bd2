import { type FoundStands, type Plan, type StandEntry, standShortList } from "@gantline/plan";
import { doJobs, type WorkingScope } from "@gantline/runtime";

/** What the short list is made from. */
export interface ListMatter {
  readonly plan: Plan;
  readonly found: readonly FoundStands[];
}

export type SweptEntry = Omit<StandEntry, "inFront">;

/** Sweeps the best stands of a search through the whole evolution, and tells each as it is done. */
doJobs<ListMatter, "list", readonly StandEntry[], SweptEntry>(self as WorkingScope, ({ plan, found }) => (_, tell) => {
  return standShortList(plan, found, { onSwept: tell }) ?? [];
});
