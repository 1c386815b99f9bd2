import type { Plan } from "@gantline/plan";
import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Desk, DeskActions, DeskStore } from "./desk.ts";
import type { LetGoSweep } from "./keep-let-go.ts";
import type { PlanShelf } from "./plan-shelf.ts";

/** What every part of the page works on. */
export interface Bench {
  readonly store: DeskStore;
  readonly actions: DeskActions;
  readonly shelf: PlanShelf;
  readonly letGoSweep: LetGoSweep;
}

const BenchContext = createContext<Bench | null>(null);
export const BenchProvider = BenchContext.Provider;

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (bench === null) throw new Error("This part of the page stands outside the bench.");
  return bench;
}

export function useDesk<T>(select: (desk: Desk) => T): T {
  return useStore(useBench().store, select);
}

export const useActions = (): DeskActions => useBench().actions;
export const usePlan = <T,>(select: (plan: Plan) => T): T => useDesk((desk) => select(desk.history.present));
export const useSystem = () => useDesk((desk) => desk.system);
