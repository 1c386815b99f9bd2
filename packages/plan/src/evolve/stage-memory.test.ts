import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import { evolve } from "./evolve.ts";
import { stageMemory } from "./stage-memory.ts";
import { sweepStepM } from "./sweep-stage.ts";

/** Somebody drags the first way point of a stage by so much, m. */
function dragged(plan: Plan, stage: number, [x, y, z]: readonly [number, number, number]): Plan {
  const copy = structuredClone(plan) as { -readonly [K in keyof Plan]: Plan[K] };
  const path = copy.evolution.stages[stage]?.path as [number, number, number][] | undefined;
  if (!path?.[0]) throw new Error("no way point");
  path[0] = [path[0][0] + x, path[0][1] + y, path[0][2] + z];
  return copy;
}

const ways = crossingExample.evolution.stages.flatMap((s, i) => (s.path.length > 0 ? [i] : []));

describe("stages kept as they were swept", () => {
  it("leave the evolution what it is without them, whatever is dragged", () => {
    const memory = stageMemory();
    let plan: Plan = crossingExample;
    for (const [k, by] of [
      [0.1, 0, 0],
      [0, 0.2, 0],
      [0, 0, 0.15],
      [-0.1, 0, 0],
    ].entries()) {
      plan = dragged(plan, ways[k % ways.length] ?? 0, by as [number, number, number]);
      const kept = JSON.stringify(evolve(plan, sweepStepM(plan), memory));
      expect(kept).toBe(JSON.stringify(evolve(plan)));
    }
    const stronger = { ...plan, policy: { ...plan.policy, closeRatio: { value: 0.5, source: "test" } } };
    expect(JSON.stringify(evolve(stronger, sweepStepM(stronger), memory))).toBe(JSON.stringify(evolve(stronger)));
    const turned = { ...plan, evolution: { ...plan.evolution, stages: [...plan.evolution.stages].reverse() } };
    expect(JSON.stringify(evolve(turned, sweepStepM(turned), memory))).toBe(JSON.stringify(evolve(turned)));
  });

  it("are swept again only where a way point of theirs was dragged", () => {
    const memory = stageMemory();
    const stage = ways[1] ?? 0;
    const before = memory.sweep(crossingExample, 0.5);
    const after = memory.sweep(dragged(crossingExample, stage, [0, 0, 0.1]), 0.5);
    const last = (crossingExample.evolution.stages[stage]?.path.length ?? 0) === 1;
    const anew = after.flatMap((swept, i) => (swept === before[i] ? [] : [i]));
    const next = ways.filter((i) => i > stage)[0] ?? stage;
    expect(anew[0]).toBe(stage);
    // Where the way's last point was dragged, what begins there is swept too: up to the end of the next way.
    expect(anew).toEqual(last ? before.flatMap((_, i) => (i >= stage && i <= next ? [i] : [])) : [stage]);
  });
});
