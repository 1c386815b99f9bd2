import { useEffect } from "react";
import { useDesk, usePlan } from "../state/desk-context.tsx";
import { givesTip } from "../state/tip-gives.ts";
import { useLetGo, useLetGoActions } from "./use-let-go.ts";

/** A line of the plan, whether or not it is on the load at the moment. */
export interface PlanLine {
  readonly id: string;
  readonly name: string;
  readonly role: "main" | "tagline" | "tether";
}

const known = new WeakMap<object, readonly PlanLine[]>();

/** Every line of the plan, main lines first. */
export const usePlanLines = (): readonly PlanLine[] =>
  usePlan(({ rig }) => {
    const found = known.get(rig) ?? [
      ...rig.mainLines.map(({ id, name }): PlanLine => ({ id, name, role: "main" })),
      ...rig.taglines.map(({ id, name }): PlanLine => ({ id, name, role: "tagline" })),
      ...(rig.tether ? [{ id: rig.tether.id, name: rig.tether.name, role: "tether" } as const] : []),
    ];
    known.set(rig, found);
    return found;
  });

/** A hand that has not moved for this long rests, ms. */
const RESTS_MS = 80;

/** Asks for what happens when the chosen line goes at the moment looked at, again whenever either changes; `null` line: there is none. */
export function useCase() {
  const actions = useLetGoActions();
  const lines = usePlanLines();
  const chosen = useLetGo((desk) => desk.lineId);
  const tipGives = useDesk(givesTip);
  const plan = usePlan((one) => one);
  const when = useDesk((desk) => desk.when);
  const moving = useDesk((desk) => desk.moveBase !== null);
  const line = lines.find(({ id }) => id === chosen) ?? lines[0] ?? null;
  const lineId = line?.id ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked anew when the tip is taken otherwise
  useEffect(() => {
    if (lineId === null || moving) return;
    const resting = setTimeout(() => actions.cut(plan, when, lineId), RESTS_MS);
    return () => clearTimeout(resting);
  }, [actions, plan, when, lineId, moving, tipGives]);
  return { line, lines, one: useLetGo((desk) => desk.one) };
}
