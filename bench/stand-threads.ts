import { type StandBand, type StandQuestion, standGrid } from "@gantline/engine";
import { EXAMPLES, type Plan } from "@gantline/plan";
import { spreadWork } from "@gantline/runtime";
import { mapSearch } from "../apps/web/src/stand/map-search.ts";
import type { PlanAnswer, PlanJob, PlanMatter, PlanNews } from "../apps/web/src/stand/plan-worker.ts";
import { firstAsk } from "../apps/web/src/stand/stand-ask.ts";
import { type StandJob, standJobs } from "../apps/web/src/stand/stand-jobs.ts";
import { isFirstLook, type VehicleSearch } from "../apps/web/src/stand/stand-questions.ts";
import { type BenchReport, type Measurement, summarise } from "./measure.ts";
import { type ThreadsOf, threadsOf } from "./on-threads.ts";
import { LADDER, LONGER, yardOf } from "./stand-yard.ts";

const RUNS = 5;
/** The map is stopped so long after it was begun, ms: while the rating is worked out, and while the map fills. */
const STOPPED_AFTER_MS = [60, 150, 400, 800];

/**
 * How long does the search take as the app does it: its own workers, two threads of each, jobs and answers as messages?
 *
 * The yard of 60 m × 40 m at 0.25 m with both vehicles (aim: under 2 s). For each example plan, from asking: until the first
 * map covers every place, without the rating (aim: under 300 ms); until a coarse one with the rating does; until all is
 * searched. `stopped`: from stopping until no thread works on it any more (aim: under 100 ms); the longest of several.
 */
export async function benchStandThreads(): Promise<BenchReport> {
  const report: Record<string, Measurement | number> = {};
  const searching = threadsOf("apps/web/src/stand/stand-worker.ts");
  const asking = threadsOf("apps/web/src/stand/plan-worker.ts");
  const searchers = spreadWork<readonly StandQuestion[], StandJob, StandBand>({ workers: 2, start: searching.start });
  report["yard, both vehicles, two threads"] = await yardTimes(searchers);
  for (const { key, plan } of EXAMPLES) {
    const times = await mapTimes(plan, searchers, asking);
    for (const [what, timesMs] of Object.entries(times)) report[`${key}: ${what}`] = summarise(timesMs);
    report[`${key}: stopped, longest ms`] = Math.round(await stopTime(plan, searchers, searching, asking));
  }
  searchers.end();
  await Promise.all([searching.end(), asking.end()]);
  return report;
}

type Searchers = ReturnType<typeof spreadWork<readonly StandQuestion[], StandJob, StandBand>>;

async function yardTimes(searchers: Searchers): Promise<Measurement> {
  const questions = [yardOf(10, 0.25, LADDER), yardOf(10, 0.25, LONGER)];
  const jobs = standJobs(questions.map(standGrid));
  const timesMs: number[] = [];
  for (let run = 0; run <= RUNS; run++) {
    const startMs = performance.now();
    await new Promise<void>((settle, refuse) =>
      searchers.begin({
        matter: questions,
        jobs,
        onAnswer: () => {},
        onEnd: (fault) => (fault === null ? settle() : refuse(new Error(fault))),
      }),
    );
    timesMs.push(performance.now() - startMs);
  }
  return summarise(timesMs.slice(1));
}

/** What the tip carries is remembered by a thread: new ones for every run, started as the app starts them before it is asked. */
async function askers(asking: ThreadsOf) {
  const spread = spreadWork<PlanMatter, PlanJob, PlanAnswer, PlanNews>({ workers: 2, start: asking.start });
  await new Promise((settle) => setTimeout(settle, 300));
  return spread;
}

const isCovered = ({ cells }: VehicleSearch): boolean => {
  const { columns, rows } = cells.grid;
  for (let cell = 0; cell < columns * rows; cell++) if (cells.at(cell) === null) return false;
  return columns * rows > 0;
};

async function mapTimes(plan: Plan, searchers: Searchers, asking: ThreadsOf) {
  const times: Record<string, number[]> = { "first map": [], "coarse map with the rating": [], "all searched": [] };
  for (let run = 0; run <= RUNS; run++) {
    const ask = await askers(asking);
    const startMs = performance.now();
    const heard = new Map<string, number>();
    const note = (what: string) => heard.has(what) || heard.set(what, performance.now() - startMs);
    await new Promise<void>((settle, refuse) =>
      mapSearch({
        searchers,
        askers: ask,
        show: (searches) => {
          if (!searches.every(isCovered)) return;
          note(searches.some(isFirstLook) ? "first map" : "coarse map with the rating");
        },
        end: (fault) => (fault === null ? settle() : refuse(new Error(fault))),
      }).begin(plan, firstAsk(plan)),
    );
    note("all searched");
    ask.end();
    if (run > 0) for (const [what, timesMs] of Object.entries(times)) timesMs.push(heard.get(what) ?? Number.NaN);
  }
  return times;
}

async function stopTime(plan: Plan, searchers: Searchers, searching: ThreadsOf, asking: ThreadsOf): Promise<number> {
  let longestMs = 0;
  for (const afterMs of STOPPED_AFTER_MS) {
    const ask = await askers(asking);
    const map = mapSearch({ searchers, askers: ask, show: () => {}, end: () => {} });
    map.begin(plan, { ...firstAsk(plan), cellM: 0.25 });
    await new Promise((settle) => setTimeout(settle, afterMs));
    const startMs = performance.now();
    map.stop();
    while (searching.busy() + asking.busy() > 0) await new Promise((settle) => setTimeout(settle, 1));
    longestMs = Math.max(longestMs, performance.now() - startMs);
    ask.end();
  }
  return longestMs;
}
