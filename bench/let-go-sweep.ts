import { EXAMPLES, letGoMoments, momentPlan, type Plan } from "@gantline/plan";
import type { DeskStore } from "../apps/web/src/state/desk.ts";
import { keepLetGo } from "../apps/web/src/state/keep-let-go.ts";
import type { KeptLetGo } from "../apps/web/src/state/let-go-jobs.ts";
import { letGo } from "../packages/engine/src/index.ts";
import { caseSystem, ridesLight } from "../packages/plan/src/let-go/case-system.ts";
import { withoutTether } from "../packages/plan/src/let-go/let-go-case.ts";
import { linesOn } from "../packages/plan/src/let-go/sweep-cuts.ts";
import { solvePlan } from "../packages/plan/src/solve-plan.ts";
import { type BenchReport, type Measurement, measure, summarise } from "./measure.ts";
import { threadsOf } from "./on-threads.ts";

/** As the fine pass follows a cut. */
const FINE = { tolerance: 1e-5, durationS: 8 } as const;
const SWEEPS = 12;
/** So far has a sweep come when all its cuts are made: they are sixteen of seventeen parts. */
const ALL_CUT = 16 / 17 - 1e-9;
/** Every so many moments one is taken for the cuts that are timed one by one. */
const EVERY = 6;

/**
 * How long does one cut of an example plan take (aim: under 2 ms, median), each line at every sixth moment, as the fine
 * pass follows it, those that a pulley rides told apart; and how long every line cut at every moment of its evolution, as the
 * app does it: two threads, jobs and answers as messages, news of how far it is (aim: under 500 ms for 400 cuts and more)?
 * And with what is gathered after them: the worst followed finely, parts held to their strength, the map of shares and slack.
 *
 * The first sweep, of threads that have just started, is told apart. Checks on how the load hangs before the cut are not in
 * the time of one cut; they are in that of the sweep.
 */
export async function benchLetGoSweep(): Promise<BenchReport> {
  const report: Record<string, Measurement | number> = {};
  for (const { key, plan } of EXAMPLES) {
    for (const [name, cuts] of Object.entries(cutsOf(plan))) {
      if (cuts.length === 0) continue;
      const one = measure((call) => cuts[call % cuts.length]?.(), { warmup: 2 * cuts.length, minTimeMs: 2000 });
      report[`${key}: ${name}`] = one;
      report[`${key}: ${name}, median ms`] = Number(one.medianMs.toPrecision(3));
    }
    const { firstMs, cutsMs, timesMs, found } = await sweeps(plan);
    report[`${key}: all cuts, two threads`] = summarise(cutsMs);
    report[`${key}: all cuts, median ms`] = Math.round(summarise(cutsMs).medianMs);
    report[`${key}: with worst and map`] = summarise(timesMs);
    report[`${key}: with worst and map, median ms`] = Math.round(summarise(timesMs).medianMs);
    report[`${key}: first sweep, ms`] = Math.round(firstMs);
    report[`${key}: cuts`] = found;
  }
  return report;
}

/** Cuts as the fine pass follows them, those with the tether's pulley riding told apart. */
function cutsOf(plan: Plan): Readonly<Record<string, readonly (() => unknown)[]>> {
  const stays: (() => unknown)[] = [];
  const rides: (() => unknown)[] = [];
  for (const when of letGoMoments(plan).filter((_, i) => i % EVERY === 0)) {
    const solved = solvePlan(momentPlan(plan, when));
    for (const { id } of linesOn(plan)) {
      // Where the tether itself goes nothing pulls its pulley: the ropes it kinked are at once straight.
      const choices = withoutTether(solved, [id], solved.state?.tether?.pulled ? { rider: "moves" } : {});
      const built = caseSystem(solved, choices, [id], { fine: false });
      if (!built.ok || !(id in built.system.lines) || !letGo(built.system, id, FINE).ok) continue;
      (ridesLight(built) ? rides : stays).push(() => letGo(built.system, id, FINE));
    }
  }
  return { "one cut": stays, "one cut, pulley riding": rides };
}

interface Sweeps {
  /** From begin to end, of threads that have just started. */
  readonly firstMs: number;
  /** Until every line is cut at every moment. */
  readonly cutsMs: readonly number[];
  /** Until the worst are followed finely, each part held to its strength, and the map is made. */
  readonly timesMs: readonly number[];
  readonly found: number;
}

async function sweeps(plan: Plan): Promise<Sweeps> {
  const state: { letGo: KeptLetGo | null } = { letGo: null };
  let heard = () => {};
  const desk = {
    // A hand that is still on something: nothing begins by itself.
    getState: () => ({ ...state, history: { present: plan }, moveBase: {} }),
    setState: (next: (now: typeof state) => Partial<typeof state>) => {
      Object.assign(state, next(state));
      heard();
    },
    subscribe: () => () => {},
  } as unknown as DeskStore;
  const threads = threadsOf("apps/web/src/state/let-go-worker.ts");
  const kept = keepLetGo(desk, threads.start);
  const timesMs: number[] = [];
  const cutsMs: number[] = [];
  for (let sweep = 0; sweep <= SWEEPS; sweep++) {
    const startMs = performance.now();
    await new Promise<void>((settle, refuse) => {
      heard = () => {
        if (state.letGo?.fault) refuse(new Error(state.letGo.fault));
        const { phase, looked = 0 } = state.letGo ?? {};
        if (phase === "running" && looked >= ALL_CUT && cutsMs.length <= sweep)
          cutsMs.push(performance.now() - startMs);
        if (phase === "done") settle();
      };
      kept.begin();
    });
    timesMs.push(performance.now() - startMs);
  }
  await threads.end();
  const [firstMs = 0, ...warm] = timesMs;
  return { firstMs, cutsMs: cutsMs.slice(1), timesMs: warm, found: state.letGo?.found?.cuts.length ?? 0 };
}
