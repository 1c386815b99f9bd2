import { evaluate } from "../../evaluate.ts";
import { crossingExample } from "../../examples/crossing.ts";
import type { Plan } from "../../schema/plan.ts";

export interface Plumb {
  /** Part of the load on the first line. */
  readonly share?: number;
  readonly massKg?: number;
  /** null: not known. */
  readonly slipN?: number | null;
}

/**
 * An example made to meet closed forms: both main lines over one rigging point, sheaves without loss, ropes without weight, no wind, no taglines, the
 * load plumb below its tip sheave.
 */
export function plumbPlan({ share = 0.5, massKg = 120, slipN = null }: Plumb = {}): Plan {
  const { rig, scene, gear } = crossingExample;
  const [first] = rig.mainLines;
  if (!first) throw new Error("no main line");
  const plan: Plan = {
    ...crossingExample,
    evolution: { ...crossingExample.evolution, stages: [] },
    scene: { ...scene, structures: [], wind: { ...scene.wind, gustMS: 0 } },
    gear: gear.map((g) => {
      if (g.kind === "rope") return { ...g, linearMassKgM: 0 };
      return g.kind === "sheave" ? { ...g, efficiency: 1 } : g.kind === "brake" ? { ...g, slipN } : g;
    }),
    rig: {
      ...rig,
      load: { ...rig.load, motion: "raise", parts: [{ id: "one", name: "One", kind: "casualty", massKg }] },
      mainLines: [
        { ...first, share },
        { ...first, id: "main-b", name: "Main B", share: 1 - share },
      ],
      taglines: [],
    },
  };
  return plumbBelow(plan);
}

/** The load below where its tip sheave hangs, which itself hangs by where the load is. */
function plumbBelow(plan: Plan): Plan {
  let found = plan;
  for (let round = 0; round < 20; round++) {
    const sheave = evaluate(found).lines[0]?.nodes[1]?.at;
    if (!sheave) throw new Error("no sheave");
    const { load } = found.rig;
    found = { ...found, rig: { ...found.rig, load: { ...load, positionM: [sheave[0], sheave[1], 12] } } };
  }
  return found;
}

/** A plan with this gear changed. */
export const withGear = <T extends object>(plan: Plan, id: string, change: T): Plan => ({
  ...plan,
  gear: plan.gear.map((g) => (g.id === id ? { ...g, ...change } : g)),
});
