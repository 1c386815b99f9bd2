import { type LetGoPart, letGoTasks, type SweptCase } from "@gantline/plan";
import { type EndableWorker, spreadWork, type WorkSpread } from "@gantline/runtime";
import type { Desk, DeskStore } from "./desk.ts";
import type { KeptLetGo, LetGoAnswer, LetGoJob, LetGoMatter } from "./let-go-jobs.ts";
import { givesTip } from "./tip-gives.ts";

/** A hand that has not moved for this long rests, ms. */
const RESTS_MS = 600;
/** Two, so that the page keeps a core for itself on a small tablet. */
const WORKERS = 2;
/** Short enough that a sweep is seen to come on, and that a stop is kept soon. */
const PARTS = 16;

const NOTHING: KeptLetGo = { phase: "stopped", looked: 0, found: null, of: null, fault: null };

/**
 * Keeps what happens when lines of the plan on the desk go: in a worker, once the hand has rested and the evolution has been
 * swept; any change, of the plan or of how its tip is taken, ends what is under way. What was found stays in sight until the next.
 *
 * @param start starts the worker; asked for when there is first something to look at
 */
export function keepLetGo(desk: DeskStore, start: () => EndableWorker): LetGoSweep {
  let spread: WorkSpread<LetGoMatter, LetGoJob, LetGoAnswer> | null = null;
  let resting: ReturnType<typeof setTimeout> | undefined;
  const set = (next: Partial<KeptLetGo>) =>
    desk.setState(({ letGo }) => ({ letGo: { ...(letGo ?? NOTHING), ...next } }));
  const fail = (fault: string | null) => fault !== null && set({ phase: "stopped", fault });
  const begin = () => {
    clearTimeout(resting);
    const of = desk.getState().history.present;
    const matter = { plan: of, when: null, tipGives: givesTip(desk.getState()) };
    const parts: (readonly SweptCase[])[] = [];
    const spreading = spread ?? spreadWork({ workers: WORKERS, start });
    spread = spreading;
    set({ phase: "running", looked: 0, fault: null });
    spreading.begin({
      matter,
      jobs: Array.from({ length: PARTS }, (_, part) => ({ kind: "cuts", part, of: PARTS })),
      onAnswer: (answer, job, done) => {
        if (answer.kind === "cuts" && job.kind === "cuts") parts[job.part] = answer.swept;
        set({ looked: done / (PARTS + 1) });
      },
      onEnd: (fault) => (fault === null ? goOn(matter, parts.flat()) : fail(fault)),
    });
  };
  const goOn = (matter: LetGoMatter, swept: readonly SweptCase[]) => {
    const tasks = letGoTasks(matter.plan, swept);
    const parts: LetGoPart[] = [];
    spread?.begin({
      matter,
      jobs: tasks.map((task) => ({ kind: "task", task })),
      onAnswer: (answer, _job, done) => {
        if (answer.kind === "task") parts.push(answer.part);
        set({ looked: (PARTS + done / tasks.length) / (PARTS + 1) });
      },
      onEnd: (fault) => (fault === null ? gather(matter, swept, parts) : fail(fault)),
    });
  };
  const gather = (matter: LetGoMatter, swept: readonly SweptCase[], parts: readonly LetGoPart[]) =>
    spread?.begin({
      matter,
      jobs: [{ kind: "gather", swept, parts }],
      onAnswer: (answer) =>
        answer.kind === "gather" && set({ phase: "done", looked: 1, found: answer.found, of: matter.plan }),
      onEnd: fail,
    });
  const stop = () => {
    clearTimeout(resting);
    spread?.cancel();
    set({ phase: "stopped" });
  };
  const look = ({ moveBase, letGo }: Desk) => {
    if (letGo?.phase === "running") stop();
    clearTimeout(resting);
    if (moveBase === null) resting = setTimeout(begin, RESTS_MS);
  };
  look(desk.getState());
  desk.subscribe((now, before) => {
    const otherTip = givesTip(now) !== givesTip(before);
    // What was found with the tip taken otherwise is of no plan that is on the desk.
    if (otherTip && now.letGo?.of) set({ of: null });
    if (otherTip || now.history.present !== before.history.present || now.moveBase !== before.moveBase) look(now);
  });
  return { begin, stop };
}

/** What a person can do about the sweep. */
export interface LetGoSweep {
  readonly begin: () => void;
  readonly stop: () => void;
}

/** The worker that works out what happens when a line goes, in a browser. */
export const letGoWorker = (): EndableWorker =>
  new Worker(new URL("./let-go-worker.ts", import.meta.url), { type: "module" }) as unknown as EndableWorker;
