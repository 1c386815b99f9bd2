import type { Drawing } from "@gantline/drawing";
import {
  type Evaluation,
  type Evolution,
  evaluate,
  evaluateAt,
  momentPlan,
  type Plan,
  type UnitSystem,
  type View,
  type When,
} from "@gantline/plan";
import type { StoredPlanSummary } from "@gantline/runtime";
import { create } from "zustand";
import { beginHistory, type History, record, redo, undo } from "./history.ts";
import type { KeptLetGo } from "./let-go-jobs.ts";
import { type Look, readPreference, writePreference } from "./preferences.ts";

export type Tab = "scene" | "stand" | "rig" | "evolution" | "letGo" | "ledger" | "policy";

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

/** The sweep of the plan's stages. */
export interface KeptEvolution {
  /** The latest there is; null before the first. */
  readonly swept: Evolution | null;
  /** The plan it is of: while something is dragged, a little older than the one on the desk. */
  readonly of: Plan;
  /** A fault of the program itself: the sweep is older than the plan. */
  readonly fault: string | null;
}

/** Drawings that stand in place of the plan's own, which cannot be dragged in then. */
export interface DrawnInstead {
  readonly drawings: Readonly<Record<View, Drawing>>;
  /** The sheet is fitted anew when this changes. */
  readonly fitKey: string;
}

/** Which ledger is shown: every check at its worst over the whole evolution, or as it stands at the place or moment looked at. */
export type LedgerScope = "evolution" | "moment";

/** The open plan, everything computed from it, and how it is being looked at. */
export interface Desk {
  readonly planId: string;
  readonly history: History<Plan>;
  /** Where the move under way began: it becomes one step to undo. */
  readonly moveBase: Plan | null;
  /** The drawing in which it is moved: that one follows the hand first. */
  readonly moveView: View | null;
  /** The moment of the evolution that is looked at; null: the one position the rig names. */
  readonly when: When | null;
  /** The plan as it is at that moment: what the drawings show. */
  readonly shownPlan: Plan;
  /** What happens then. */
  readonly evaluation: Evaluation;
  /** null: the plan has no stages, or the first sweep is under way. */
  readonly evolution: KeptEvolution | null;
  readonly ledgerScope: LedgerScope;
  /** Is the space that load and ropes sweep drawn? */
  readonly sweptShown: boolean;
  /** The line whose letting go is drawn. */
  readonly letOutLineId: string | null;
  /** What is drawn instead of the plan: what happens when a line goes. */
  readonly drawnInstead: DrawnInstead | null;
  /** Does the tip give as the ladder's sections do, when a line goes? */
  readonly tipGives: boolean;
  /** What happens when any line goes at any moment; null: not looked at yet. */
  readonly letGo: KeptLetGo | null;
  /** A fault of the program itself: the numbers shown are older than the plan. */
  readonly fault: string | null;
  readonly entryProblems: Readonly<Record<string, EntryProblem>>;
  readonly system: UnitSystem;
  readonly look: Look;
  readonly tab: Tab | null;
  /** Is the search for a place to stand open? */
  readonly whereOpen: boolean;
  readonly openCheckId: string | null;
  readonly plans: readonly StoredPlanSummary[];
  readonly storage: "kept" | "refused";
  readonly notice: Notice | null;
}

const SYSTEMS = ["metric", "imperial"] as const;
const LOOKS = ["day", "night"] as const;
const SCOPES = ["evolution", "moment"] as const;

/** @param evaluation of the plan, where it is known already */
export function createDesk(planId: string, plan: Plan, evaluation: Evaluation = evaluate(plan)) {
  return create<Desk>()(() => ({
    planId,
    history: beginHistory(plan),
    moveBase: null,
    moveView: null,
    when: null,
    shownPlan: plan,
    evaluation,
    evolution: null,
    ledgerScope: readPreference("ledger", SCOPES),
    sweptShown: false,
    letOutLineId: null,
    drawnInstead: null,
    tipGives: false,
    letGo: null,
    fault: null,
    entryProblems: {},
    system: readPreference("units", SYSTEMS),
    look: readPreference("look", LOOKS),
    tab: null,
    whereOpen: false,
    openCheckId: null,
    plans: [],
    storage: "kept",
    notice: null,
  }));
}

export type DeskStore = ReturnType<typeof createDesk>;

type Shown = Pick<Desk, "when" | "shownPlan">;

/**
 * What a plan becomes on the desk: itself at the moment looked at, with what is computed from it. A moment of a stage that
 * is gone is the end of the last there is. A fault leaves the last numbers standing and says so.
 */
function computed(plan: Plan, wanted: When | null): Shown & (Pick<Desk, "evaluation" | "fault"> | Pick<Desk, "fault">) {
  const last = plan.evolution.stages.length - 1;
  const when = wanted === null || last < 0 ? null : wanted.stage > last ? { stage: last, along: 1 } : wanted;
  const shownPlan = when === null ? plan : momentPlan(plan, when);
  try {
    return { when, shownPlan, evaluation: when === null ? evaluate(plan) : evaluateAt(plan, when), fault: null };
  } catch (error) {
    return { when, shownPlan, fault: error instanceof Error ? error.message : String(error) };
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
    beginMove(moveView: View) {
      store.setState((desk) => ({ moveBase: desk.moveBase ?? desk.history.present, moveView }));
    },
    moveTo(next: (plan: Plan) => Plan) {
      const { history } = store.getState();
      const plan = next(history.present);
      if (plan !== history.present) settle({ ...history, present: plan });
    },
    endMove() {
      const { history, moveBase } = store.getState();
      if (moveBase !== null)
        store.setState({ moveBase: null, moveView: null, history: record(history, history.present, moveBase) });
    },
    /** The move under way never was. */
    abandonMove() {
      const { history, moveBase } = store.getState();
      if (moveBase !== null) settle({ ...history, present: moveBase }, { moveBase: null, moveView: null });
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
      settle(beginHistory(plan), {
        planId,
        when: null,
        evolution: null,
        letOutLineId: null,
        tipGives: false,
        letGo: null,
        moveBase: null,
        moveView: null,
        entryProblems: {},
        openCheckId: null,
      });
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
    /** Look at a moment of the evolution, or (null) at the one position the rig names. */
    lookAt: (when: When | null) => store.setState(computed(store.getState().history.present, when)),
    showTab: (tab: Tab | null) => store.setState({ tab }),
    openWhere: (whereOpen: boolean) => store.setState({ whereOpen }),
    openCheck: (openCheckId: string | null) => store.setState({ openCheckId }),
    showLedger(ledgerScope: LedgerScope) {
      writePreference("ledger", ledgerScope);
      store.setState({ ledgerScope });
    },
    showSwept: (sweptShown: boolean) => store.setState({ sweptShown }),
    showLetOut: (letOutLineId: string | null) => store.setState({ letOutLineId }),
    letTipGive: (tipGives: boolean) => store.setState({ tipGives }),
    drawInstead: (drawnInstead: DrawnInstead | null) => store.setState({ drawnInstead }),
    tell: (notice: Notice | null) => store.setState({ notice }),
  };
}

export type DeskActions = ReturnType<typeof deskActions>;
