import { EXAMPLES, letGoMoments, momentPlan, type Plan } from "@gantline/plan";
import type { EndableWorker } from "@gantline/runtime";
import type { DeskStore } from "../../apps/web/src/state/desk.ts";
import { keepLetGo } from "../../apps/web/src/state/keep-let-go.ts";
import type { KeptLetGo } from "../../apps/web/src/state/let-go-jobs.ts";
import { letGo } from "../../packages/engine/src/index.ts";
import { caseSystem, ridesLight } from "../../packages/plan/src/let-go/case-system.ts";
import { withoutTether } from "../../packages/plan/src/let-go/let-go-case.ts";
import { linesOn } from "../../packages/plan/src/let-go/sweep-cuts.ts";
import { solvePlan } from "../../packages/plan/src/solve-plan.ts";
import { type BenchReport, type Measurement, measure, summarise } from "../measure.ts";

/** As the fine pass follows a cut. */
const FINE = { tolerance: 1e-5, durationS: 8 } as const;
const SWEEPS = 12;
/** So far has a sweep come when all its cuts are made: they are sixteen of seventeen parts. */
const ALL_CUT = 16 / 17 - 1e-9;
/** Every so many moments one is taken for the cuts that are timed one by one. */
const EVERY = 6;

/** Times of the cuts of each example, one by one and all of them on two threads. @param start starts the app's worker */
export async function letGoSweepTimes(start: () => EndableWorker): Promise<BenchReport> {
  const report: Record<string, Measurement | number> = {};
  for (const { key, plan } of EXAMPLES) {
    for (const [name, cuts] of Object.entries(cutsOf(plan))) {
      if (cuts.length === 0) continue;
      const one = measure((call) => cuts[call % cuts.length]?.(), { warmup: 2 * cuts.length, minTimeMs: 2000 });
      report[`${key}: ${name}`] = one;
      report[`${key}: ${name}, median ms`] = Number(one.medianMs.toPrecision(3));
    }
    const { firstMs, cutsMs, timesMs, found } = await sweeps(plan, start);
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
  return {
    "one cut": [...stays, ...rides],
    "pulley not riding": rides.length > 0 ? stays : [],
    "pulley riding": rides,
  };
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

async function sweeps(plan: Plan, start: () => EndableWorker): Promise<Sweeps> {
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
  const threads: EndableWorker[] = [];
  const kept = keepLetGo(desk, () => {
    const thread = start();
    threads.push(thread);
    return thread;
  });
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
  for (const thread of threads) thread.terminate();
  const [firstMs = 0, ...warm] = timesMs;
  return { firstMs, cutsMs: cutsMs.slice(1), timesMs: warm, found: state.letGo?.found?.cuts.length ?? 0 };
}
