import { drawLetGo, motionEndS } from "@gantline/drawing";
import type { LetGoCase } from "@gantline/plan";
import { useEffect, useMemo } from "react";
import { useActions, useDesk, useSystem } from "../state/desk-context.tsx";
import { useLetGo } from "./use-let-go.ts";

/** Draws a case in place of the plan on the two drawings of the sheet, for as long as this is in use; null: draws the plan. */
export function useDrawnCase(one: LetGoCase | null): void {
  const actions = useActions();
  const system = useSystem();
  const plan = useDesk((desk) => desk.shownPlan);
  const evaluation = useDesk((desk) => desk.evaluation);
  const atS = useLetGo((desk) => desk.atS);
  const near = useLetGo((desk) => desk.near);
  const drawn = useMemo(() => {
    if (one === null) return null;
    const options = { system, near, atS: atS ?? motionEndS(one) };
    return {
      drawings: {
        section: drawLetGo(plan, evaluation, one, { ...options, view: "section" }),
        plan: drawLetGo(plan, evaluation, one, { ...options, view: "plan" }),
      },
      fitKey: near ? `near ${one.cut.join(" ")} ${one.when?.stage} ${one.when?.along}` : "",
    };
  }, [one, plan, evaluation, system, near, atS]);
  useEffect(() => actions.drawInstead(drawn), [actions, drawn]);
  useEffect(() => () => actions.drawInstead(null), [actions]);
}
