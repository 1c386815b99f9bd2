import { lerp, poseAerial } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { placeStructures } from "../place-geometry.ts";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import { writePhrase } from "../units/write-amount.ts";
import { writtenProblems } from "./stage-problems.ts";

type Place = Plan["evolution"]["startM"];
const found = (plan: Plan, stage: number): string[] =>
  writtenProblems(plan, stage, placeStructures(plan)).map(
    (p) => `${p.status} ${p.field} ${writePhrase(p.says, "metric")}`,
  );
/** The plan with one stage of an empty yoke that goes one way. */
const empty = (plan: Plan, startM: Place, path: Place[]): Plan => ({
  ...plan,
  evolution: { startM, stages: [{ ...(plan.evolution.stages[0] as Stage), path }] },
});

describe("the way of an empty yoke", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("is clear in the %s example", (_, plan) =>
    expect(plan.evolution.stages.flatMap((_, i) => found(plan, i).filter((s) => s.includes("empty yoke")))).toEqual([]),
  );

  it("is told where it leads through a wall, though no point of it lies within", () => {
    // The wall stands from 0.75 m west to 0.75 m east, 7 m high.
    const through = "over evolution.stages[0].path The way of the empty yoke leads through Flood wall.";
    expect(found(empty(crossingExample, [1.6, 10.66, 1.5], [[-1.6, 10.66, 1.5]]), 0)).toEqual([through]);
    const over: Place[] = [
      [1.6, 10.66, 8],
      [-1.6, 10.66, 8],
      [-1.6, 10.66, 1.5],
    ];
    expect(found(empty(crossingExample, [1.6, 10.66, 1.5], over), 0)).toEqual([]);
  });

  it("may lie on a roof", () => {
    expect(found(empty(roofExample, [-2, 12, 9], [[2, 12, 9]]), 0)).toEqual([]);
  });

  it("is told where it leads through the ladder as it is posed by then", () => {
    const { device, place, pose } = crossingExample.aerial;
    const { pivot, tip } = poseAerial(device, place, pose);
    const [x, y, z] = lerp(pivot, tip, 0.6);
    const plan = empty(crossingExample, [x - 4, y, z], [[x + 4, y, z]]);
    expect(found(plan, 0)).toEqual([expect.stringContaining("leads through the ladder")]);
    // Swung a quarter turn aside in the stage before, it stands elsewhere.
    const [across] = plan.evolution.stages as [Stage];
    const swing: Stage = { ...across, id: "swing", action: "moveLadder", path: [], pose: { ...pose, bearingRad: 1.5 } };
    const later = { ...plan, evolution: { ...plan.evolution, stages: [swing, across] } };
    expect(found(later, 1)).toEqual([]);
  });
});
