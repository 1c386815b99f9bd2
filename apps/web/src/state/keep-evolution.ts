import type { Evolution, Plan } from "@gantline/plan";
import { type AskedWorker, askLatest } from "@gantline/runtime";
import type { Desk, DeskStore } from "./desk.ts";
import { sweepWaits } from "./sweep-waits.ts";

/** A plan to sweep, and which of the machine's plans it is. */
export interface SweepQuestion {
  readonly planId: string;
  readonly plan: Plan;
}

/** A hand that has not moved for this long rests, ms. */
const RESTS_MS = 120;

/**
 * Keeps the sweep of the plan on the desk: in a worker, again at every change, of the changes that come meanwhile only the
 * last. While something is in hand the drawings have the machine to themselves: the sweep follows when the hand rests or
 * lets go. A way point in hand changes nothing but the evolution, which is then swept at every step. The sweep there is
 * stays in sight until the next.
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
  let resting: ReturnType<typeof setTimeout> | undefined;
  let asked: SweepQuestion | null = null;
  const sweep = () => {
    const { planId, history } = desk.getState();
    const plan = history.present;
    if (plan.evolution.stages.length === 0) {
      asked = null;
      desk.setState({ evolution: null });
    } else if (asked?.plan !== plan || asked.planId !== planId) {
      asked = { planId, plan };
      ask ??= begin();
      ask(asked);
    }
  };
  const look = (now: Desk) => {
    clearTimeout(resting);
    if (sweepWaits(now)) resting = setTimeout(sweep, RESTS_MS);
    else sweep();
  };
  look(desk.getState());
  desk.subscribe((now, before) => {
    if (now.history.present !== before.history.present || now.moveBase !== before.moveBase) look(now);
  });
}

/** The worker that sweeps, in a browser. */
export const evolveWorker = (): AskedWorker =>
  new Worker(new URL("./evolve-worker.ts", import.meta.url), { type: "module" }) as unknown as AskedWorker;
