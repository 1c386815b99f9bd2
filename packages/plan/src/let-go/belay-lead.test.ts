import type { SiteVector } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import type { When } from "../evolve/evolution-types.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import { belayLead } from "./belay-lead.ts";
import { nearestOnOutline, runWithin } from "./outline-runs.ts";
import { letGoMoments } from "./sweep-cuts.ts";

function leadAt(plan: Plan, when: When) {
  const situation = assess(momentPlan(plan, when));
  return { yoke: situation.load.yoke, lead: belayLead(situation, situation.load.yoke) };
}

/** Even-odd rule, written out anew: is a point in the body of a building? */
function isInside(plan: Plan, [x, y, z]: readonly [number, number, number]): boolean {
  return plan.scene.structures.some(({ outline, baseZM, topZM }) => {
    let crossings = 0;
    outline.forEach(([ax, ay], i) => {
      const [bx, by] = outline[(i + 1) % outline.length] ?? [ax, ay];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) crossings++;
    });
    return crossings % 2 === 1 && z > baseZM + 1e-6 && z < topZM - 1e-6;
  });
}

describe("a belay from a structure", () => {
  it("runs through nothing, at any moment of the examples", () => {
    let led = 0;
    for (const plan of [crossingExample, roofExample])
      for (const [i, when] of letGoMoments(plan).entries()) {
        if (i % 8 !== 3) continue;
        const { yoke, lead } = leadAt(plan, when);
        if (!lead) continue;
        led++;
        const rope: SiteVector[] = [yoke, ...(lead.edgeAt ? [lead.edgeAt] : []), lead.brakeAt];
        for (const [k, to] of rope.slice(1).entries()) {
          const from = rope[k] ?? to;
          for (let share = 0.005; share < 1; share += 0.01) {
            const at = from.map((a, c) => a + share * ((to[c] ?? a) - a)) as [number, number, number];
            expect(isInside(plan, at), `${plan.name}, ${JSON.stringify(when)}, ${at}`).toBe(false);
          }
        }
      }
    expect(led).toBeGreaterThan(20);
  });

  it("turns over the edge in front of the load, and ends behind it", () => {
    // Half way up beside the store's south face, y = 8, parapet top 9.9; its roof has a stair head that is higher and behind.
    const { lead } = leadAt(roofExample, { stage: 2, along: 0.5 });
    expect(lead?.structure.id).toBe("grain-store");
    expect(lead?.edgeAt?.[1]).toBeCloseTo(8, 9);
    expect(lead?.edgeAt?.[2]).toBeGreaterThan(9.9);
    expect(lead?.brakeAt[1]).toBeGreaterThan(8.5);
  });

  it("goes straight to a brake on top where the load is above", () => {
    const { lead } = leadAt(crossingExample, { stage: 3, along: 0.5 });
    expect(lead).toMatchObject({ structure: { id: "flood-wall" }, edgeAt: null });
  });

  it("is none where something taller stands between", () => {
    const [store] = roofExample.scene.structures;
    if (!store) throw new Error("no store");
    // A screen before the only structure, all along it and far above; nothing can be led from its own thin top: no top at all.
    const screen = { ...store, id: "screen", name: "Screen", topZM: 40, parapetHeightM: 0 };
    const outline: [number, number][] = [
      [-30, 7.2],
      [30, 7.2],
      [30, 7.4],
      [-30, 7.4],
    ];
    const behind = { ...roofExample, scene: { ...roofExample.scene, structures: [store, { ...screen, outline }] } };
    const { lead } = leadAt(behind, { stage: 2, along: 0.1 });
    expect(lead?.structure.id).not.toBe("grain-store");
  });
});

describe("ways in an outline", () => {
  const square: [number, number][] = [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
  ];
  it("the nearest place of a square, beside a side and off a corner", () => {
    expect(nearestOnOutline(square, [1, -3])).toEqual({ at: [1, 0], awayM: 3 });
    expect(nearestOnOutline(square, [5, 6])).toEqual({ at: [2, 2], awayM: 5 });
    expect(nearestOnOutline(square, [1.5, 1])).toEqual({ at: [2, 1], awayM: 0.5 });
  });
  it("how far it goes inward from a side, from a corner, and from within", () => {
    expect(runWithin(square, [1, 0], [0, 1])).toBeCloseTo(2, 12);
    expect(runWithin(square, [0, 0], [Math.SQRT1_2, Math.SQRT1_2])).toBeCloseTo(2 * Math.SQRT2, 12);
    expect(runWithin(square, [1.5, 1], [-1, 0])).toBeCloseTo(1.5, 12);
    expect(runWithin(square, [3, 1], [1, 0])).toBe(0);
  });
});
