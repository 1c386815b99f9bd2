import { type MapShown, type StandCells, standCells } from "@gantline/drawing";
import { type StandBand, type StandGrid, type StandQuestion, standGrid } from "@gantline/engine";
import {
  type AskedStand,
  type Device,
  type FoundStands,
  type Plan,
  type StandAsked,
  type StandChoice,
  standAims,
  standQuestion,
  withStand,
} from "@gantline/plan";
import { type EndableWorker, spreadWork } from "@gantline/runtime";
import { create } from "zustand";
import type { Bench } from "../state/desk-context.tsx";
import type { ListMatter, SweptEntry } from "./list-worker.ts";
import { type Ask, firstAsk, vehiclesOf } from "./stand-ask.ts";
import { type StandJob, standJobs } from "./stand-jobs.ts";

/** What was found for one vehicle so far. */
export interface VehicleSearch {
  readonly device: Device;
  /** One for each aim. */
  readonly asked: readonly StandAsked[];
  /** Empty where the question cannot be asked. */
  readonly cells: StandCells;
}

export interface StandDesk {
  readonly ask: Ask;
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
  /** Which of them stand side by side, by their numbers from 1. */
  readonly beside: readonly number[];
  /** The stand whose marks are shown. */
  readonly placed: StandChoice | null;
}

export type StandDeskStore = ReturnType<typeof standDesk>;

/** Between two drawings of a map that fills, ms. */
const REDRAWN_EVERY_MS = 90;

/** Four at most stand side by side: the first ones unless others are chosen. */
const FIRST_BESIDE: readonly number[] = [1, 2, 3, 4];

const startWorker = (): EndableWorker =>
  new Worker(new URL("./stand-worker.ts", import.meta.url), { type: "module" }) as unknown as EndableWorker;

const startLister = (): EndableWorker =>
  new Worker(new URL("./list-worker.ts", import.meta.url), { type: "module" }) as unknown as EndableWorker;

/** Two at least, so that one slow place does not hold up the map; the page keeps a core for itself. */
const workers = (): number => Math.max(2, Math.min(6, navigator.hardwareConcurrency - 1));

/** The search for a place to stand, and everything that can be done with it. */
function standDesk({ store: desk, actions }: Bench) {
  const plan = () => desk.getState().history.present;
  const store = create<StandDesk>()(() => ({
    ask: firstAsk(plan()),
    phase: "idle",
    fault: null,
    looked: 0,
    of: null,
    searches: [],
    shown: "governs",
    shownDeviceId: null,
    cell: null,
    list: null,
    beside: FIRST_BESIDE,
    placed: null,
  }));
  const spread = spreadWork<readonly StandQuestion[], StandJob, StandBand>({ workers: workers(), start: startWorker });
  const lists = spreadWork<ListMatter, "list", readonly SweptEntry[], SweptEntry>({ workers: 1, start: startLister });
  /** Plans that what was found holds for: the one searched, and those made by taking a stand into it. */
  let known = new WeakSet<Plan>();

  const start = () => {
    const of = plan();
    const { ask } = store.getState();
    const asked = askedOf(of, ask);
    const questions = questionsOf(asked).map(({ question }) => question);
    const grids = questions.map(standGrid);
    const bands: StandBand[][] = questions.map(() => []);
    const jobs = standJobs(grids);
    const total = jobs.reduce((sum, { cells }) => sum + cells, 0);
    const laidOut = (): readonly VehicleSearch[] => {
      let next = 0;
      return asked.map(({ device, asked: each }) => {
        const layers = each.flatMap((a) => (a.ok ? [{ question: a.question, bands: [...(bands[next++] ?? [])] }] : []));
        return { device, asked: each, cells: standCells(gridOf(layers.map(({ question }) => question)), layers) };
      });
    };
    let cells = 0;
    let waiting: ReturnType<typeof setTimeout> | undefined;
    let drawnAtMs = Number.NEGATIVE_INFINITY;
    const show = (rest: Partial<StandDesk> = {}) => {
      clearTimeout(waiting);
      waiting = undefined;
      drawnAtMs = performance.now();
      store.setState({ searches: laidOut(), looked: total === 0 ? 1 : cells / total, ...rest });
    };
    stopShowing = () => {
      if (waiting !== undefined) show();
    };
    known = new WeakSet([of]);
    store.setState({
      of,
      phase: "running",
      fault: null,
      looked: 0,
      searches: laidOut(),
      shownDeviceId:
        (asked.find(({ device }) => device.id === store.getState().shownDeviceId) ?? asked[0])?.device.id ?? null,
      cell: null,
      list: null,
      beside: FIRST_BESIDE,
      placed: null,
    });
    lists.cancel();
    spread.begin({
      matter: questions,
      jobs,
      onAnswer: (band, job) => {
        bands[job.question]?.push(band);
        cells += job.cells;
        const wait = drawnAtMs + REDRAWN_EVERY_MS - performance.now();
        if (wait <= 0) show();
        else waiting ??= setTimeout(show, wait);
      },
      onEnd: (fault) => {
        show(fault === null ? { phase: "done" } : { phase: "stopped", fault });
        if (fault === null) sweep({ plan: of, found: foundOf(questionsOf(asked), bands) });
      },
    });
  };

  const sweep = (matter: ListMatter) => {
    store.setState({ list: { entries: [], done: false } });
    lists.begin({
      matter,
      jobs: ["list"],
      onNews: (entry) =>
        store.setState(({ list }) => ({ list: { entries: [...(list?.entries ?? []), entry], done: false } })),
      onAnswer: (entries) => store.setState({ list: { entries, done: true } }),
      onEnd: (fault) => fault !== null && store.setState({ fault, list: null }),
    });
  };
  let stopShowing = () => {};

  const stop = () => {
    spread.cancel();
    lists.cancel();
    stopShowing();
    store.setState({ phase: "stopped" });
  };

  let planId = desk.getState().planId;
  desk.subscribe((now) => {
    if (now.planId === planId) return;
    planId = now.planId;
    spread.cancel();
    lists.cancel();
    store.setState({ ...store.getInitialState(), ask: firstAsk(now.history.present) });
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
    place: (placed: StandChoice | null) => store.setState({ placed }),
    /** One step to undo. */
    take(choice: StandChoice) {
      actions.change((now) => {
        const next = withStand(now, choice);
        if (known.has(now)) known.add(next);
        return next;
      });
    },
    /** Does what was found still hold for a plan? */
    holdsFor: (one: Plan) => known.has(one),
  };
}

/** What is asked of each vehicle that is ticked, one question an aim. */
function askedOf(plan: Plan, { deviceIds, aimIds, toleranceM, cellM }: Ask) {
  const aims = standAims(plan);
  const wanted = aims.filter(({ id }) => aimIds.includes(id));
  return vehiclesOf(plan)
    .filter(({ id }) => deviceIds.includes(id))
    .map((device) => ({
      device,
      asked: (wanted.length > 0 ? wanted : [aims[0]]).map((aim) =>
        standQuestion(plan, {
          aim,
          toleranceM,
          steps: { cellM },
          ...(device === plan.aerial.device ? {} : { device }),
        }),
      ),
    }));
}

const questionsOf = (asked: readonly { readonly asked: readonly StandAsked[] }[]): readonly AskedStand[] =>
  asked.flatMap((one) => one.asked.flatMap((a) => (a.ok ? [a] : [])));

const foundOf = (asked: readonly AskedStand[], bands: readonly (readonly StandBand[])[]): readonly FoundStands[] =>
  asked.map((one, index) => ({ asked: one, bands: bands[index] ?? [] }));

/** All questions of a search share one grid. */
const gridOf = ([first]: readonly StandQuestion[]): StandGrid =>
  first === undefined ? { westM: 0, southM: 0, cellM: 1, columns: 0, rows: 0 } : standGrid(first);

const desks = new WeakMap<Bench, StandDeskStore>();

/** The one search of this page: it goes on while another form is looked at. */
export function standDeskOf(bench: Bench): StandDeskStore {
  const desk = desks.get(bench) ?? standDesk(bench);
  desks.set(bench, desk);
  return desk;
}
