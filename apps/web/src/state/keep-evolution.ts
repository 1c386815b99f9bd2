import type { Evolution, Plan } from "@gantline/plan";
import { type AskedWorker, askLatest } from "@gantline/runtime";
import type { Desk, DeskStore } from "./desk.ts";

/** A plan to sweep, and which of the machine's plans it is. */
export interface SweepQuestion {
  readonly planId: string;
  readonly plan: Plan;
}

/**
 * Keeps the sweep of the plan on the desk: in a worker, again at every change, of the changes that come meanwhile only the
 * last. The sweep there is stays in sight until the next, so that a drag is followed at the pace the machine can keep.
 *
 * @param start starts the worker; asked for when the first plan with stages is on the desk
 */
export function keepEvolution(desk: DeskStore, start: () => AskedWorker): void {
  let ask: ((question: SweepQuestion) => void) | null = null;
  const begin = () =>
    askLatest<SweepQuestion, Evolution>(start(), (reply, { planId, plan: of }) => {
      const { planId: shown, history, evolution } = desk.getState();
      if (shown !== planId || history.present.evolution.stages.length === 0) return;
      if ("answer" in reply) desk.setState({ evolution: { swept: reply.answer, of, fault: null } });
      else desk.setState({ evolution: { swept: evolution?.swept ?? null, of, fault: reply.fault } });
    });
  const look = ({ planId, history: { present: plan } }: Desk) => {
    if (plan.evolution.stages.length === 0) {
      desk.setState({ evolution: null });
      return;
    }
    ask ??= begin();
    ask({ planId, plan });
  };
  look(desk.getState());
  desk.subscribe((now, before) => {
    if (now.history.present !== before.history.present) look(now);
  });
}

/** The worker that sweeps, in a browser. */
export const evolveWorker = (): AskedWorker =>
  new Worker(new URL("./evolve-worker.ts", import.meta.url), { type: "module" }) as unknown as AskedWorker;
