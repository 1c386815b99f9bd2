import { useStore } from "zustand";
import { useBench, useDesk } from "../state/desk-context.tsx";
import { givesTip } from "../state/tip-gives.ts";
import { type Asked, type LetGoDesk, type LetGoDeskStore, letGoDeskOf } from "./let-go-desk.ts";

export const useLetGoActions = (): LetGoDeskStore => letGoDeskOf(useBench());

export const useLetGo = <T>(select: (desk: LetGoDesk) => T): T => useStore(useLetGoActions().store, select);

/** Is what was worked out of an older plan, of another moment than the one looked at, or with the tip taken otherwise? */
export function useOlder({ worked }: Asked<unknown>): boolean {
  const plan = useDesk((desk) => desk.history.present);
  const when = useDesk((desk) => desk.when);
  const gives = useDesk(givesTip);
  return (
    worked !== null &&
    (worked.tipGives !== gives ||
      worked.plan !== plan ||
      worked.when?.stage !== when?.stage ||
      worked.when?.along !== when?.along)
  );
}
