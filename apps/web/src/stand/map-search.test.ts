import { searchStands, standStatusAt } from "@gantline/engine";
import { EXAMPLES, type Plan, standQuestion } from "@gantline/plan";
import type { Work } from "@gantline/runtime";
import { expect, it } from "vitest";
import { mapSearch } from "./map-search.ts";
import type { PlanAnswer, PlanJob, PlanMatter, PlanNews } from "./plan-worker.ts";
import { firstAsk } from "./stand-ask.ts";
import type { VehicleSearch } from "./stand-questions.ts";

/** Jobs are done one at a time, when they are asked for. */
function byHand<M, J, A, N = never>(answer: (matter: M, job: J) => A) {
  let work: Work<M, J, A, N> | null = null;
  let done = 0;
  return {
    begin(next: Work<M, J, A, N>) {
      work = next;
      done = 0;
    },
    cancel: () => {
      work = null;
    },
    end: () => {},
    isBusy: () => work !== null,
    /** The next job, and the end after the last. */
    step() {
      const at = work;
      const job = at?.jobs[done++];
      if (at === null) return;
      if (job !== undefined) at.onAnswer(answer(at.matter, job), job, done);
      if (work === at && done >= at.jobs.length) {
        work = null;
        at.onEnd(null);
      }
    },
  };
}

function searched(plan: Plan) {
  const askers = byHand<PlanMatter, PlanJob, PlanAnswer, PlanNews>((matter, job) => {
    if (job.kind !== "ask") throw new Error("only asked");
    return { kind: "ask", asked: standQuestion(matter.plan, job.ask) };
  });
  const searchers = byHand<
    Parameters<typeof searchStands>[0][],
    Parameters<typeof searchStands>[1] & { question: number },
    NonNullable<ReturnType<typeof searchStands>>
  >((questions, job) => {
    const question = questions[job.question];
    const band = question && searchStands(question, job);
    if (!band) throw new Error("there is no such question");
    return band;
  });
  const shown: (readonly VehicleSearch[])[] = [];
  const ends: (string | null)[] = [];
  const map = mapSearch({
    askers,
    searchers: searchers as never,
    show: (searches) => shown.push(searches),
    end: (fault) => ends.push(fault),
  });
  map.begin(plan, { ...firstAsk(plan), cellM: 1 });
  return { askers, searchers, shown, ends, map };
}

const statuses = ([search]: readonly VehicleSearch[]) => {
  const { cells } = search ?? expect.unreachable();
  return Array.from({ length: cells.grid.columns * cells.grid.rows }, (_, cell) => {
    const found = cells.at(cell);
    return found === null ? null : standStatusAt(found.band, found.entry);
  });
};
const isFirst = ([search]: readonly VehicleSearch[]) => search?.cells.questions[0]?.ratingLater === true;

it("looks first without the rating and calls nothing fitting, then shows a whole coarse map with it", () => {
  const plan = EXAMPLES[0]?.plan ?? expect.unreachable();
  const { askers, searchers, shown, ends } = searched(plan);
  while (searchers.isBusy()) searchers.step();
  const first = shown.at(-1) ?? expect.unreachable();
  expect(isFirst(first)).toBe(true);
  expect(new Set(statuses(first))).toEqual(new Set(["unknown", "rejected"]));
  const before = shown.length;
  while (askers.isBusy()) askers.step();
  // The first look stays until every place has at least its block's answer.
  expect(shown.length).toBe(before);
  while (searchers.isBusy()) searchers.step();
  const rated = shown.slice(before);
  expect(rated.some(isFirst)).toBe(false);
  for (const one of rated) expect(statuses(one)).not.toContain(null);
  expect(statuses(rated.at(-1) ?? [])).toContain("feasible");
  expect(ends).toEqual([null]);
});

it("rules out in the first look only what the whole search rules out", () => {
  for (const { plan } of EXAMPLES) {
    const ask = { steps: { cellM: 2 } };
    const bands = [true, false].map((ratingLater) => {
      const asked = standQuestion(plan, { ...ask, ratingLater });
      return asked.ok ? searchStands(asked.question, { fromRow: 0, toRow: 1e6 }) : expect.unreachable();
    });
    const [first, whole] = [bands[0] ?? expect.unreachable(), bands[1] ?? expect.unreachable()];
    for (const i of first.cells.keys()) {
      expect(standStatusAt(first, i)).not.toBe("feasible");
      if (standStatusAt(first, i) === "rejected") expect(standStatusAt(whole, i)).toBe("rejected");
    }
  }
});

it("keeps the first look when it is stopped, and hears nothing more", () => {
  const plan = EXAMPLES[0]?.plan ?? expect.unreachable();
  const { askers, searchers, shown, ends, map } = searched(plan);
  while (searchers.isBusy()) searchers.step();
  map.stop();
  expect([askers.isBusy(), searchers.isBusy(), ends]).toEqual([false, false, []]);
  expect(isFirst(shown.at(-1) ?? [])).toBe(true);
});
