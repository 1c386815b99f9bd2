import type { MapShown } from "@gantline/drawing";
import type { StandBand, StandQuestion } from "@gantline/engine";
import {
  type Plan,
  type StandAdvice,
  type StandChoice,
  type StandPlacement,
  vehiclesOf,
  withStand,
} from "@gantline/plan";
import { type EndableWorker, spreadWork } from "@gantline/runtime";
import { create } from "zustand";
import type { Bench } from "../state/desk-context.tsx";
import { mapSearch } from "./map-search.ts";
import type { PlanAnswer, PlanJob, PlanMatter, PlanNews, SweptEntry } from "./plan-worker.ts";
import { type Ask, firstAsk } from "./stand-ask.ts";
import type { StandJob } from "./stand-jobs.ts";
import { aimsOf, devicesOf, type VehicleSearch } from "./stand-questions.ts";

export interface StandDesk {
  readonly ask: Ask;
  /** What was asked of the search that is shown. */
  readonly askedFor: Ask | null;
  readonly phase: "idle" | "running" | "done" | "stopped";
  /** A fault of the program itself. */
  readonly fault: string | null;
  /** Of the places to look at, 0 to 1. */
  readonly looked: number;
  /** The plan the search is of; `null` before the first. */
  readonly of: Plan | null;
  readonly searches: readonly VehicleSearch[];
  readonly shown: MapShown;
  readonly shownDeviceId: string | null;
  /** The place that is asked about. */
  readonly cell: number | null;
  /** The best stands, swept; `null` until the search has ended. */
  readonly list: { readonly entries: readonly SweptEntry[]; readonly done: boolean } | null;
  /** Single changes that would make a stand possible; `null` unless nothing fits. */
  readonly advice: { readonly found: readonly StandAdvice[]; readonly done: boolean } | null;
  /** Which of the list stand side by side, by their numbers from 1. */
  readonly beside: readonly number[];
  /** The stand whose marks are shown; without a placement while that is worked out. */
  readonly placed: { readonly choice: StandChoice; readonly placement: StandPlacement | null } | null;
}

export type StandDeskStore = ReturnType<typeof standDesk>;

/** Four at most stand side by side: the first ones unless others are chosen. */
const FIRST_BESIDE: readonly number[] = [1, 2, 3, 4];

/** Nothing has been found yet, of this plan. */
const NOTHING_FOUND = {
  askedFor: null,
  fault: null,
  looked: 0,
  searches: [],
  cell: null,
  list: null,
  advice: null,
  beside: FIRST_BESIDE,
  placed: null,
} satisfies Partial<StandDesk>;

const startSearcher = (): EndableWorker =>
  new Worker(new URL("./stand-worker.ts", import.meta.url), { type: "module" }) as unknown as EndableWorker;

const startPlanWorker = (): EndableWorker =>
  new Worker(new URL("./plan-worker.ts", import.meta.url), { type: "module" }) as unknown as EndableWorker;

/** Two at least, so that one slow place does not hold up the map; the page keeps a core for itself. */
const workers = (): number => Math.max(2, Math.min(6, navigator.hardwareConcurrency - 1));

/** The search for a place to stand, and everything that can be done with it. */
function standDesk({ store: desk, actions, shelf }: Bench) {
  const plan = () => desk.getState().history.present;
  const store = create<StandDesk>()(() => ({
    ...NOTHING_FOUND,
    ask: firstAsk(plan()),
    phase: "idle",
    of: null,
    shown: "governs",
    shownDeviceId: null,
  }));
  const planWorker = (count = 1) =>
    spreadWork<PlanMatter, PlanJob, PlanAnswer, PlanNews>({ workers: count, start: startPlanWorker });
  const map = mapSearch({
    searchers: spreadWork<readonly StandQuestion[], StandJob, StandBand>({
      workers: workers(),
      start: startSearcher,
    }),
    /** What the tip carries is solved beside the page, one vehicle and one place to serve at a time. */
    askers: planWorker(2),
    show: (searches, looked) => store.setState({ searches, looked }),
    end: (fault, found) => {
      store.setState(fault === null ? { phase: "done" } : { phase: "stopped", fault });
      const { of } = store.getState();
      if (fault === null && found.length > 0 && of !== null) sweep({ plan: of, found });
    },
  });
  const sweeper = planWorker();
  /** Of its own: marks do not wait for a list that is being swept. */
  let placer: ReturnType<typeof planWorker> | null = null;
  /** Plans that what was found holds for: the one searched, and those made by taking a stand into it. */
  let known = new WeakSet<Plan>();

  /** A search that was begun before is not one of something else for it. */
  const seeKept = async () => {
    const kept = await shelf.vehicles();
    store.setState(({ ask, askedFor }) => {
      const next = { ...ask, kept };
      return { ask: next, askedFor: askedFor === ask ? next : askedFor };
    });
  };
  void seeKept();

  const start = () => {
    const of = plan();
    const { ask, shownDeviceId } = store.getState();
    const devices = devicesOf(of, ask);
    map.stop();
    sweeper.cancel();
    placer?.cancel();
    known = new WeakSet([of]);
    store.setState({
      ...NOTHING_FOUND,
      of,
      askedFor: ask,
      phase: "running",
      shownDeviceId: (devices.find(({ id }) => id === shownDeviceId) ?? devices[0])?.id ?? null,
    });
    map.begin(of, ask);
  };

  const stop = () => {
    map.stop();
    sweeper.cancel();
    store.setState({ phase: "stopped" });
  };

  /** Sweeps the best stands; where none holds, seeks what would make one possible. */
  const sweep = (matter: PlanMatter) => {
    store.setState({ list: { entries: [], done: false } });
    sweeper.begin({
      matter,
      jobs: [{ kind: "list" }],
      onNews: (news) => {
        if (news.kind === "swept")
          store.setState(({ list }) => ({ list: { entries: [...(list?.entries ?? []), news.entry], done: false } }));
      },
      onAnswer: (answer) => {
        if (answer.kind === "list") store.setState({ list: { entries: answer.entries, done: true } });
      },
      onEnd: (fault) => {
        if (fault !== null) store.setState({ fault, list: null });
        else if (store.getState().list?.entries.every(({ fit }) => fit === "fails")) advise(matter.plan);
      },
    });
  };

  /** For the first vehicle, as finely as is usual. */
  const advise = (of: Plan) => {
    const { ask } = store.getState();
    const [device] = devicesOf(of, ask);
    if (device === undefined) return;
    const [aim, ...others] = aimsOf(of, ask);
    if (others.length > 0) {
      // Advice is for one place: that none serves several is the advice.
      store.setState({ advice: { found: [], done: true } });
      return;
    }
    const change = device === of.aerial.device ? {} : { device };
    store.setState({ advice: { found: [], done: false } });
    sweeper.begin({
      matter: { plan: of, found: [] },
      jobs: [
        { kind: "advice", ask: { aim, toleranceM: ask.toleranceM, ...change }, vehicles: vehiclesOf(of, ask.kept) },
      ],
      onNews: (news) => {
        if (news.kind === "found")
          store.setState(({ advice }) => ({ advice: { found: [...(advice?.found ?? []), news.advice], done: false } }));
      },
      onAnswer: (answer) => {
        if (answer.kind === "advice") store.setState({ advice: { found: answer.advice, done: true } });
      },
      onEnd: (fault) => fault !== null && store.setState({ fault, advice: null }),
    });
  };

  let planId = desk.getState().planId;
  desk.subscribe((now) => {
    if (now.planId === planId) return;
    planId = now.planId;
    map.stop();
    sweeper.cancel();
    placer?.cancel();
    store.setState({ ...NOTHING_FOUND, phase: "idle", of: null, ask: firstAsk(now.history.present) });
    void seeKept();
  });

  return {
    store,
    start,
    stop,
    setAsk: (ask: Partial<Ask>) => store.setState((was) => ({ ask: { ...was.ask, ...ask } })),
    show: (shown: MapShown) => store.setState({ shown }),
    showDevice: (shownDeviceId: string) => store.setState({ shownDeviceId }),
    lookAt: (cell: number | null) => store.setState({ cell }),
    setBeside: (beside: readonly number[]) => store.setState({ beside: beside.slice(-FIRST_BESIDE.length) }),
    /** Shows what is painted on the ground for a stand. */
    place(choice: StandChoice | null) {
      placer?.cancel();
      const { of } = store.getState();
      store.setState({ placed: choice === null ? null : { choice, placement: null } });
      if (choice === null || of === null) return;
      placer ??= planWorker();
      placer.begin({
        matter: { plan: of, found: [] },
        jobs: [{ kind: "placement", choice }],
        onAnswer: (answer) => {
          if (answer.kind === "placement") store.setState({ placed: { choice, placement: answer.placement } });
        },
        onEnd: (fault) => fault !== null && store.setState({ fault, placed: null }),
      });
    },
    /** One step to undo. */
    take(choice: StandChoice) {
      actions.change((now) => {
        const next = withStand(now, choice);
        if (known.has(now)) known.add(next);
        return next;
      });
    },
    /** A stand with the change it needs, in one step; only into the plan it was worked out for. */
    takeAdvice({ plan: next }: StandAdvice) {
      actions.change((now) => {
        if (!known.has(now)) return now;
        known.add(next);
        return next;
      });
    },
    /** Does what was found still hold for a plan? */
    holdsFor: (one: Plan) => known.has(one),
  };
}

const desks = new WeakMap<Bench, StandDeskStore>();

/** The one search of this page: it goes on while another form is looked at. */
export function standDeskOf(bench: Bench): StandDeskStore {
  const desk = desks.get(bench) ?? standDesk(bench);
  desks.set(bench, desk);
  return desk;
}
