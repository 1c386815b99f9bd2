import {
  type Device,
  type FoundStands,
  type Plan,
  type StandAdvice,
  type StandAsk,
  type StandAsked,
  type StandChoice,
  type StandEntry,
  type StandPlacement,
  standAdvice,
  standPlacement,
  standQuestion,
  standShortList,
  withRoom,
  withStand,
} from "@gantline/plan";
import { doJobs, type WorkingScope } from "@gantline/runtime";

/** A plan, and what was found for it. */
export interface PlanMatter {
  readonly plan: Plan;
  readonly found: readonly FoundStands[];
}

export type PlanJob =
  /** What the search is asked for one vehicle and one place to serve: what the tip carries is solved here. */
  | { readonly kind: "ask"; readonly ask: StandAsk }
  /** Sweep the best stands through the whole evolution; each is told as it is done. */
  | { readonly kind: "list" }
  /** Which single change would make a stand possible; each is told as it is found. */
  | { readonly kind: "advice"; readonly ask: StandAsk; readonly vehicles: readonly Device[] }
  /** What is painted on the ground for a stand. */
  | { readonly kind: "placement"; readonly choice: StandChoice };

export type PlanAnswer =
  | { readonly kind: "ask"; readonly asked: StandAsked }
  | { readonly kind: "list"; readonly entries: readonly StandEntry[] }
  | { readonly kind: "advice"; readonly advice: readonly StandAdvice[] }
  | { readonly kind: "placement"; readonly placement: StandPlacement };

export type PlanNews =
  | { readonly kind: "swept"; readonly entry: SweptEntry }
  | { readonly kind: "found"; readonly advice: StandAdvice };

export type SweptEntry = Omit<StandEntry, "inFront">;

doJobs<PlanMatter, PlanJob, PlanAnswer, PlanNews>(self as WorkingScope, ({ plan, found }) => (job, tell) => {
  switch (job.kind) {
    case "ask":
      return { kind: "ask", asked: standQuestion(plan, job.ask) };
    case "list": {
      const entries = standShortList(plan, found, { onSwept: (entry) => tell({ kind: "swept", entry }) }) ?? [];
      return { kind: "list", entries: withRoom(plan, entries) ?? [] };
    }
    case "advice": {
      const { ask, vehicles } = job;
      const advice = standAdvice(plan, ask, { vehicles, onFound: (one) => tell({ kind: "found", advice: one }) });
      return { kind: "advice", advice: advice ?? [] };
    }
    case "placement":
      return { kind: "placement", placement: standPlacement(withStand(plan, job.choice)) };
  }
});
