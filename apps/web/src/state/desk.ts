import { type Evaluation, evaluate, momentPlan, type Plan, type UnitSystem, type When } from "@gantline/plan";
import type { StoredPlanSummary } from "@gantline/runtime";
import { create } from "zustand";
import { beginHistory, type History, record, redo, undo } from "./history.ts";
import { type Look, readPreference, writePreference } from "./preferences.ts";

export type Tab = "scene" | "stand" | "rig" | "evolution" | "ledger" | "policy";

/** Something written in a field that could not be taken; the plan keeps its last good value. */
export interface EntryProblem {
  readonly label: string;
  readonly text: string;
  readonly problem: string;
}

/** Something the user is told once, with the list that belongs to it. */
export interface Notice {
  readonly kind: "problem" | "done";
  readonly title: string;
  readonly lines: readonly string[];
  /** What can be done about it. */
  readonly remedy?: { readonly word: string; readonly run: () => void };
}

/** The open plan, everything computed from it, and how it is being looked at. */
export interface Desk {
  readonly planId: string;
  readonly history: History<Plan>;
  /** Where the move under way began: it becomes one step to undo. */
  readonly moveBase: Plan | null;
  readonly evaluation: Evaluation;
  /** The moment of the evolution that is looked at; null: the plan's one position. */
  readonly when: When | null;
  /** A fault of the program itself: the numbers shown are older than the plan. */
  readonly fault: string | null;
  readonly entryProblems: Readonly<Record<string, EntryProblem>>;
  readonly system: UnitSystem;
  readonly look: Look;
  readonly tab: Tab | null;
  readonly openCheckId: string | null;
  readonly plans: readonly StoredPlanSummary[];
  readonly storage: "kept" | "refused";
  readonly notice: Notice | null;
}

const SYSTEMS = ["metric", "imperial"] as const;
const LOOKS = ["day", "night"] as const;

export function createDesk(planId: string, plan: Plan) {
  return create<Desk>()(() => ({
    planId,
    history: beginHistory(plan),
    moveBase: null,
    evaluation: evaluate(plan),
    when: null,
    fault: null,
    entryProblems: {},
    system: readPreference("units", SYSTEMS),
    look: readPreference("look", LOOKS),
    tab: null,
    openCheckId: null,
    plans: [],
    storage: "kept",
    notice: null,
  }));
}

export type DeskStore = ReturnType<typeof createDesk>;

/** What a plan becomes on the desk: itself, with what is computed from it. A fault leaves the last numbers standing and says so. */
function computed(plan: Plan, when: When | null): Pick<Desk, "evaluation" | "fault"> | Pick<Desk, "fault"> {
  try {
    return { evaluation: evaluate(when === null ? plan : momentPlan(plan, when)), fault: null };
  } catch (error) {
    return { fault: error instanceof Error ? error.message : String(error) };
  }
}

/** Everything that can be done at the desk. One step to undo a call, but for `moveTo`, which makes one between `beginMove` and `endMove`. */
export function deskActions(store: DeskStore) {
  const settle = (history: History<Plan>, rest: Partial<Desk> = {}) =>
    store.setState({
      history,
      ...computed(history.present, rest.when === undefined ? store.getState().when : rest.when),
      ...rest,
    });
  return {
    change(next: (plan: Plan) => Plan) {
      const { history } = store.getState();
      const plan = next(history.present);
      if (plan !== history.present) settle(record(history, plan));
    },
    beginMove() {
      store.setState((desk) => ({ moveBase: desk.moveBase ?? desk.history.present }));
    },
    moveTo(next: (plan: Plan) => Plan) {
      const { history } = store.getState();
      const plan = next(history.present);
      if (plan !== history.present) settle({ ...history, present: plan });
    },
    endMove() {
      const { history, moveBase } = store.getState();
      if (moveBase !== null) store.setState({ moveBase: null, history: record(history, history.present, moveBase) });
    },
    /** The move under way never was. */
    abandonMove() {
      const { history, moveBase } = store.getState();
      if (moveBase !== null) settle({ ...history, present: moveBase }, { moveBase: null });
    },
    undo() {
      this.endMove();
      settle(undo(store.getState().history), { entryProblems: {} });
    },
    redo() {
      this.endMove();
      settle(redo(store.getState().history), { entryProblems: {} });
    },
    openPlan(planId: string, plan: Plan) {
      settle(beginHistory(plan), { planId, when: null, moveBase: null, entryProblems: {}, openCheckId: null });
    },
    noteEntryProblem(path: string, problem: EntryProblem | null) {
      const { [path]: _, ...others } = store.getState().entryProblems;
      store.setState({ entryProblems: problem === null ? others : { ...others, [path]: problem } });
    },
    /** After rows have come or gone under a path, what was wrongly written there no longer has a place. */
    dropEntryProblems(under: string) {
      const { entryProblems } = store.getState();
      const kept = Object.entries(entryProblems).filter(([path]) => !path.startsWith(under));
      if (kept.length < Object.keys(entryProblems).length) store.setState({ entryProblems: Object.fromEntries(kept) });
    },
    setSystem(system: UnitSystem) {
      writePreference("units", system);
      store.setState({ system });
    },
    setLook(look: Look) {
      writePreference("look", look);
      store.setState({ look });
    },
    /** Look at a moment of the evolution, or (null) at the plan's one position. */
    lookAt(when: When | null) {
      const { history } = store.getState();
      store.setState({ when, ...computed(history.present, when) });
    },
    showTab(tab: Tab | null) {
      store.setState({ tab });
      if (tab !== "evolution" && store.getState().when !== null) this.lookAt(null);
    },
    openCheck: (openCheckId: string | null) => store.setState({ openCheckId }),
    tell: (notice: Notice | null) => store.setState({ notice }),
  };
}

export type DeskActions = ReturnType<typeof deskActions>;
