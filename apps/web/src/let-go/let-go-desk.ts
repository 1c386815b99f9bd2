import type { CriticalPoint, LetGoCase, Plan, TechniqueRow, When } from "@gantline/plan";
import { spreadWork } from "@gantline/runtime";
import { create } from "zustand";
import type { Bench } from "../state/desk-context.tsx";
import { letGoWorker } from "../state/keep-let-go.ts";
import type { LetGoAnswer, LetGoJob, LetGoMatter } from "../state/let-go-jobs.ts";
import { givesTip } from "../state/tip-gives.ts";

/** Something worked out, and what it is of. */
export interface Worked<T> extends LetGoMatter {
  readonly answer: T;
}

/** One thing asked for: waited for, there, or failed. */
export interface Asked<T> {
  readonly worked: Worked<T> | null;
  readonly waiting: boolean;
  readonly fault: string | null;
}

export interface LetGoDesk {
  /** The line that goes; null: the first there is. */
  readonly lineId: string | null;
  readonly one: Asked<LetGoCase>;
  readonly critical: Asked<readonly CriticalPoint[]>;
  readonly techniques: Asked<readonly TechniqueRow[]>;
  /** Time of the replay, s after the line went; null: at rest. */
  readonly atS: number | null;
  /** Do the drawings show the case, and only the load and its way? */
  readonly drawn: boolean;
  readonly near: boolean;
}

export type LetGoDeskStore = ReturnType<typeof letGoDesk>;

const NOTHING = { worked: null, waiting: false, fault: null } as const;

/** What happens when a line goes, as far as it is asked for on its form. */
function letGoDesk({ store: desk }: Bench) {
  const store = create<LetGoDesk>()(() => ({
    lineId: null,
    one: NOTHING,
    critical: NOTHING,
    techniques: NOTHING,
    atS: null,
    drawn: true,
    near: false,
  }));

  /** Each kind has a worker of its own, so that a case does not wait for a list. */
  const asker = <K extends "one" | "critical" | "techniques">(
    key: K,
    pick: (answer: LetGoAnswer) => AnswerOf<K> | null,
  ) => {
    let spread: ReturnType<typeof spreadWork<LetGoMatter, LetGoJob, LetGoAnswer>> | null = null;
    const set = (next: Partial<Asked<AnswerOf<K>>>) =>
      store.setState((was) => ({ [key]: { ...was[key], ...next } }) as Partial<LetGoDesk>);
    return {
      ask(matter: LetGoMatter, job: LetGoJob) {
        spread ??= spreadWork({ workers: 1, start: letGoWorker });
        set({ waiting: true, fault: null });
        spread.begin({
          matter,
          jobs: [job],
          onAnswer: (answer) => {
            const picked = pick(answer);
            if (picked !== null) set({ worked: { ...matter, answer: picked } });
          },
          onEnd: (fault) => set({ waiting: false, fault }),
        });
      },
      stop() {
        spread?.cancel();
        set({ waiting: false });
      },
    };
  };
  const cases = asker("one", (a) => (a.kind === "case" ? a.one : null));
  const critical = asker("critical", (a) => (a.kind === "critical" ? a.points : null));
  const techniques = asker("techniques", (a) => (a.kind === "techniques" ? a.rows : null));

  let planId = desk.getState().planId;
  desk.subscribe((now) => {
    if (now.planId === planId) return;
    planId = now.planId;
    for (const each of [cases, critical, techniques]) each.stop();
    store.setState(store.getInitialState());
  });

  const matter = (plan: Plan, when: When | null): LetGoMatter => ({
    plan,
    when,
    tipGives: givesTip(desk.getState()),
  });

  return {
    store,
    choose: (lineId: string) => store.setState({ lineId, atS: null }),
    cut: (plan: Plan, when: When | null, lineId: string) => cases.ask(matter(plan, when), { kind: "case", lineId }),
    findCritical: (plan: Plan, when: When | null) => critical.ask(matter(plan, when), { kind: "critical" }),
    compare: (plan: Plan, when: When | null) => techniques.ask(matter(plan, when), { kind: "techniques" }),
    stopCritical: critical.stop,
    stopComparing: techniques.stop,
    replayTo: (atS: number | null) => store.setState({ atS }),
    draw: (drawn: boolean) => store.setState({ drawn }),
    goNear: (near: boolean) => store.setState({ near }),
  };
}

type AnswerOf<K extends "one" | "critical" | "techniques"> = LetGoDesk[K] extends Asked<infer T> ? T : never;

const desks = new WeakMap<Bench, LetGoDeskStore>();

/** The one such desk of this page: what was worked out stays while another form is looked at. */
export function letGoDeskOf(bench: Bench): LetGoDeskStore {
  const desk = desks.get(bench) ?? letGoDesk(bench);
  desks.set(bench, desk);
  return desk;
}
