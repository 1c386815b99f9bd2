import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { doJobs, type WorkingScope } from "./do-jobs.ts";
import { type EndableWorker, spreadWork, type Work } from "./spread-work.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

interface Desk {
  readonly asked: EndableWorker;
  readonly box: unknown[];
  ended: boolean;
  prepared: number;
  readonly work: () => void;
}

/** Workers on this thread: a job lies in its box until it is done by hand. The first letter of the matter is put before each job. */
function office() {
  const workers: Desk[] = [];
  function worker(): Desk {
    const box: unknown[] = [];
    const asked: EndableWorker = {
      postMessage: (message) => box.push(structuredClone(message)),
      onmessage: null,
      onerror: null,
      terminate: () => {
        made.ended = true;
      },
    };
    const scope: WorkingScope = {
      postMessage: (data, transfer) => asked.onmessage?.({ data: structuredClone(data, { transfer }) }),
      onmessage: null,
    };
    const made: Desk = { asked, box, ended: false, prepared: 0, work: () => scope.onmessage?.({ data: box.shift() }) };
    doJobs<string, number, { text: string; list: Uint8Array }>(scope, (matter) => {
      made.prepared++;
      return (job) => {
        if (job < 0) throw new Error("below zero");
        return { text: `${matter}${job}`, list: Uint8Array.of(job) };
      };
    });
    workers.push(made);
    return made;
  }
  const spread = spreadWork<string, number, { text: string; list: Uint8Array }>({
    workers: 2,
    start: () => worker().asked,
    graceMs: 50,
  });
  const heard: string[] = [];
  const work = (matter: string, jobs: readonly number[]): Work<string, number, { text: string; list: Uint8Array }> => ({
    matter,
    jobs,
    onAnswer: ({ text, list }, job, done) => {
      expect(list).toEqual(Uint8Array.of(job));
      heard.push(`${text} ${done}/${jobs.length}`);
    },
    onEnd: (fault) => heard.push(`${matter} ${fault ?? "end"}`),
  });
  return { workers, spread, heard, work };
}

it("keeps every worker busy, tells answers as they come, and sends the matter once to each", () => {
  const { workers, spread, heard, work } = office();
  expect(workers).toHaveLength(2);
  spread.begin(work("a", [1, 2, 3, 4]));
  expect(workers.map(({ box }) => box)).toEqual([[{ matter: "a", job: 1 }], [{ matter: "a", job: 2 }]]);
  workers[1]?.work();
  workers[1]?.work();
  workers[0]?.work();
  workers[1]?.work();
  expect(heard).toEqual(["a2 1/4", "a3 2/4", "a1 3/4", "a4 4/4", "a end"]);
  expect(workers.map(({ prepared }) => prepared)).toEqual([1, 1]);
});

it("says nothing after a cancel, and ends the workers that do not come back in time", () => {
  const { workers, spread, heard, work } = office();
  spread.begin(work("a", [1, 2, 3]));
  spread.cancel();
  workers[0]?.work();
  expect(workers[0]?.box).toEqual([]);
  vi.advanceTimersByTime(49);
  expect(workers.map(({ ended }) => ended)).toEqual([false, false]);
  vi.advanceTimersByTime(1);
  expect(workers.map(({ ended }) => ended)).toEqual([false, true, false]);
  expect(heard).toEqual([]);
});

it("lets the latest work win: on free workers at once, on replaced ones after the grace", () => {
  const { workers, spread, heard, work } = office();
  spread.begin(work("a", [1, 2, 3]));
  spread.begin(work("b", [7, 8, 9]));
  workers[0]?.work();
  expect(workers[0]?.box).toEqual([{ matter: "b", job: 7 }]);
  workers[0]?.work();
  vi.advanceTimersByTime(50);
  expect(workers.map(({ ended }) => ended)).toEqual([false, true, false]);
  expect(workers[2]?.box).toEqual([{ matter: "b", job: 9 }]);
  workers[2]?.work();
  workers[0]?.work();
  expect(heard).toEqual(["b7 1/3", "b9 2/3", "b8 3/3", "b end"]);
});

it("says once what a job failed of, and goes on with the next work", () => {
  const { workers, spread, heard, work } = office();
  spread.begin(work("a", [-1, 2]));
  workers[0]?.work();
  workers[1]?.work();
  spread.begin(work("b", [5]));
  workers[0]?.work();
  expect(heard).toEqual(["a below zero", "b5 1/1", "b end"]);
  vi.advanceTimersByTime(1000);
  expect(workers.some(({ ended }) => ended)).toBe(false);
});

it("hears news of a job until it is cancelled", () => {
  const asked: EndableWorker = { postMessage: () => {}, onmessage: null, onerror: null, terminate: () => {} };
  const scope: WorkingScope = { postMessage: (data) => asked.onmessage?.({ data }), onmessage: null };
  doJobs<string, number, string, number>(scope, (matter) => (job, tell) => {
    tell(job + 1);
    tell(job + 2);
    return matter;
  });
  const spread = spreadWork<string, number, string, number>({ workers: 1, start: () => asked });
  const heard: unknown[] = [];
  const begin = () =>
    spread.begin({
      matter: "a",
      jobs: [10],
      onNews: (news, job) => heard.push([news, job]),
      onAnswer: (answer) => heard.push(answer),
      onEnd: (fault) => heard.push(fault),
    });
  begin();
  scope.onmessage?.({ data: { matter: "a", job: 10 } });
  expect(heard).toEqual([[11, 10], [12, 10], "a", null]);
  begin();
  spread.cancel();
  scope.onmessage?.({ data: { matter: "a", job: 10 } });
  expect(heard).toHaveLength(4);
});

it("puts another in the place of a worker that broke down", () => {
  const { workers, spread, heard, work } = office();
  spread.begin(work("a", [1]));
  workers[0]?.asked.onerror?.({ message: "gone" });
  spread.begin(work("b", [5, 6]));
  expect(workers.map(({ ended }) => ended)).toEqual([true, false, false]);
  workers[2]?.work();
  workers[1]?.work();
  expect(heard).toEqual(["a gone", "b6 1/2", "b5 2/2", "b end"]);
});

it("ends at once where there is nothing to do, and may be begun anew from an answer", () => {
  const { workers, spread, heard, work } = office();
  spread.begin(work("a", []));
  const first = work("b", [1, 2]);
  spread.begin({ ...first, onAnswer: () => spread.begin(work("c", [3])) });
  workers[0]?.work();
  workers[0]?.work();
  expect(heard).toEqual(["a end", "c3 1/1", "c end"]);
  spread.end();
  expect(workers.map(({ ended }) => ended)).toEqual([true, true]);
});
