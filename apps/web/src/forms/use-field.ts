import { type FieldRule, pathSteps, ruleAt, valueAt, withValueAt } from "@gantline/plan";
import { useMemo } from "react";
import { useActions, useBench, useDesk, usePlan } from "../state/desk-context.tsx";
import { problemsOf } from "../state/problems-of.ts";

/** A field of the plan: its value, what the schema says of it, and how to change it. */
export function useField(path: string): {
  value: unknown;
  rule: FieldRule;
  set: (value: unknown) => void;
  problem: string | null;
} {
  const actions = useActions();
  const { store } = useBench();
  const steps = useMemo(() => pathSteps(path), [path]);
  const value = usePlan((plan) => valueAt(plan, steps));
  const rule = useMemo(() => ruleAt(store.getState().history.present, steps), [store, steps]);
  if (rule === null) throw new Error(`The plan has no field ${path}.`);
  const found = useDesk((desk) => problemsOf(desk).find((one) => one.path === path));
  const problem = found === undefined ? null : `Got ${found.got}, expected ${found.expected}.`;
  return { value, rule, problem, set: (next) => actions.change((plan) => withValueAt(plan, steps, next)) };
}

/** Changes the list at a path. */
export function useList<T>(path: string): {
  items: readonly T[];
  change: (next: (items: readonly T[]) => readonly T[]) => void;
} {
  const actions = useActions();
  const steps = useMemo(() => pathSteps(path), [path]);
  const items = usePlan((plan) => valueAt(plan, steps)) as readonly T[];
  return {
    items,
    change: (next) => {
      actions.dropEntryProblems(`${path}[`);
      actions.change((plan) => withValueAt(plan, steps, next(valueAt(plan, steps) as readonly T[])));
    },
  };
}
