import { listComponents } from "../rig/components.ts";
import type { RigState } from "../rig/rig-state.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import type { LetGoChoices, LineForce } from "./let-go-plan-types.ts";

/**
 * The highest force in each part of the load paths that are left, N, by the id that `listComponents` gives it; a part whose
 * force is not known is not there.
 *
 * A sheave, and what holds it, takes the peaks of the rope on both its sides as at one moment, in the directions of the rig
 * at rest. Yoke, bridle and litter take the peaks of all ropes as at one moment and one way. Never too little.
 *
 * @param lost places that let go of their rope
 */
export function partPeaks(
  { plan, state, sum }: SolvedPlan,
  lines: readonly LineForce[],
  lost: LetGoChoices["lost"] = [],
): Readonly<Record<string, number>> {
  if (state === null) return {};
  const pulling = pulledBy(state, lines, lost);
  const totalN = lines.reduce((total, l) => total + (l.role === "main" ? (l.segmentsN[0] ?? 0) : l.peakN.high), 0);
  const parts = listComponents(plan, pulling, { ...sum, weightN: totalN }, ["raise"]);
  return Object.fromEntries(
    parts.flatMap(({ id, forceN }) =>
      forceN === null ? [] : [[id, id === "load/yoke" ? totalN : forceN] satisfies [string, number]],
    ),
  );
}

/** The rig with each line that is left at its peaks, all at once. */
function pulledBy(state: RigState, lines: readonly LineForce[], lost: NonNullable<LetGoChoices["lost"]>): RigState {
  const forceOf = (id: string): LineForce | undefined => lines.find((l) => l.lineId === id);
  const { tether } = state;
  const onTether = tether && forceOf(tether.laid.line.id);
  return {
    ...state,
    mains: state.mains.flatMap((main) => {
      const { id } = main.laid.line;
      const force = forceOf(id);
      if (!force) return [];
      const nodes = main.nodes.filter((n) => !lost.some((l) => l.lineId === id && l.placeId === n.id));
      return [{ ...main, nodes, tensionsN: { raise: force.segmentsN, lower: force.segmentsN } }];
    }),
    tags: state.tags.flatMap((tag) => {
      const force = forceOf(tag.laid.line.id);
      return force ? [{ ...tag, tensionN: force.peakN.high }] : [];
    }),
    tether: tether && onTether ? { ...tether, tensionN: onTether.peakN.high } : null,
  };
}
