import { clearance, distance, type SiteVector } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "./assess.ts";
import { evaluateAt } from "./evolve/evaluate-at.ts";
import { evolve } from "./evolve/evolve.ts";
import { momentPlan } from "./evolve/moment-plan.ts";
import { crossingExample } from "./examples/crossing.ts";
import { roofExample } from "./examples/roof.ts";
import { letOuts, swingsOf } from "./let-outs.ts";
import { placeLoad } from "./place-geometry.ts";
import type { Plan } from "./schema/plan.ts";
import { nearestOnWay } from "./swing-way.ts";

const G = 9.80665;
const only = (plan: Plan, lineId: string) => {
  const found = letOuts(plan).find((l) => l.lineId === lineId);
  if (!found) throw new Error(`no swing of ${lineId}`);
  return found;
};
/** The litter held aside by the west tagline alone, in still air. */
const heldWest = (x: number, z: number): Plan => {
  const then = momentPlan(crossingExample, { stage: 2, along: 0.5 });
  return {
    ...then,
    scene: { ...then.scene, wind: { ...then.scene.wind, gustMS: 0 } },
    rig: { ...then.rig, load: { ...then.rig.load, positionM: [x, 10.66, z] } },
  };
};
/** From the tip sheaves to the middle of the load's box, by the places alone, m. */
function pendulumM(plan: Plan): number {
  const { lines, load } = evaluateAt({ ...plan, evolution: { ...plan.evolution, stages: [] } }, { stage: 0, along: 0 });
  const mains = lines.filter((l) => l.role === "main");
  const ways = mains.map((l) => distance(l.nodes[1]?.at as SiteVector, load.yoke));
  const { bridle, box } = plan.rig.load;
  return ways.reduce((a, b) => a + b, 0) / ways.length + bridle.heightM + box.heightM / 2;
}

describe("a tagline let go", () => {
  it("swings with the period of a pendulum as long as from tip sheaves to the middle of the mass, 2π√(L/g)(1 + θ²/16 + 11θ⁴/3072)", () => {
    for (const [x, z] of [
      [-0.3, 3],
      [-1.6, 3],
      [-1.6, 9],
    ] as const) {
      const plan = heldWest(x, z);
      const { periodS, angleRad } = only(plan, "tag-west");
      const series = 1 + angleRad ** 2 / 16 + (11 * angleRad ** 4) / 3072;
      // The two sheaves hang apart, so that "as long as" holds to some millimetres.
      expect(periodS / (2 * Math.PI * Math.sqrt(pendulumM(plan) / G) * series)).toBeCloseTo(1, 3);
    }
  });

  it("swings as far as the height it loses carries it, v² = 2 g h, with W(3 − 2 cos θ) on the ropes at most", () => {
    const plan = heldWest(-1.6, 6);
    const { amplitudeM, dropM, angleRad, tensionRatio, extraTensionN, heldOutM, arc, farAt } = only(plan, "tag-west");
    expect(heldOutM).toBe(0);
    // Plumb under the middle of the tip is at x = 0. The load hangs plumb below the yoke as it is held, so it loses what the
    // yoke loses on its shorter way, and swings a little wider than it was held.
    const [ropeM, { bridle, box }] = [pendulumM(plan), plan.rig.load];
    const shortM = ropeM - bridle.heightM - box.heightM / 2;
    const lostM = shortM - Math.sqrt(shortM ** 2 - 1.6 ** 2);
    // Tip sheaves lean after the ropes on their slings: some centimetres of 1.6 m.
    expect(Math.abs(dropM / lostM - 1)).toBeLessThan(0.03);
    expect(Math.abs(amplitudeM - Math.sqrt(2 * ropeM * dropM - dropM ** 2))).toBeLessThan(1e-3);
    expect(Math.abs(amplitudeM / (1.6 * Math.sqrt(ropeM / shortM)) - 1)).toBeLessThan(0.015);
    expect(tensionRatio).toBeCloseTo(3 - 2 * Math.cos(angleRad), 6);
    expect(extraTensionN).toBeCloseTo(116 * G * (2 - 2 * Math.cos(angleRad)), 2);
    expect(arc[0]?.[0]).toBeCloseTo(-1.6, 3);
    expect(farAt[0]).toBeCloseTo(amplitudeM, 1);
  });

  it("strikes the wall beside which it is held, and not above it", () => {
    expect(only(heldWest(-1.6, 6), "tag-west")).toMatchObject({ clearanceM: 0, nearestTo: "Flood wall" });
    expect(only(heldWest(-1.6, 12), "tag-west").clearanceM).toBeGreaterThan(2);
  });
});

describe("the tether let go", () => {
  const plan = momentPlan(roofExample, { stage: 2, along: 0.8 });
  const { lines, load } = evaluateAt({ ...plan, evolution: { ...plan.evolution, stages: [] } }, { stage: 0, along: 0 });
  const found = only(plan, "tether");

  it("lets out the rope that its pulley held aside", () => {
    const held = lines
      .filter((l) => l.role === "main")
      .map(({ nodes }) => {
        const [, tip, rider, base] = nodes.map((n) => n.at) as [SiteVector, SiteVector, SiteVector, SiteVector];
        return distance(tip, rider) + distance(rider, base) - distance(tip, base);
      });
    expect(held).toHaveLength(2);
    expect(Math.min(...held)).toBeGreaterThan(0.05);
    expect(Math.abs(found.heldOutM - ((held[0] ?? 0) + (held[1] ?? 0)) / 2)).toBeLessThan(1e-3);
  });

  it("turns all the height it loses, that of the rope let out too, into speed and pull: T = W + m v² ÷ L, v² = 2 g h", () => {
    const ropeM = pendulumM(plan) + found.heldOutM;
    const shortM = pendulumM(plan) - (load.yoke[2] - load.box.bounds.min[2]) + plan.rig.load.box.heightM / 2;
    const swungM = shortM - Math.sqrt(shortM ** 2 - distanceAside(found.arc[0] as SiteVector) ** 2);
    expect(found.dropM).toBeGreaterThan(swungM);
    expect(Math.abs(found.dropM - swungM - found.heldOutM)).toBeLessThan(0.01);
    expect(found.tensionRatio).toBeCloseTo(1 + (2 * found.dropM) / ropeM, 4);
    expect(found.extraTensionN).toBeCloseTo((found.tensionRatio - 1) * (load.weightN ?? 0), 6);
    const lowest = Math.min(...found.arc.map((p) => p[2]));
    expect(Math.abs(load.yoke[2] - found.dropM - lowest)).toBeLessThan(0.01);
  });

  const { posed } = assess(plan).geometry;
  /** Level, from plumb under the middle of the rigging points. */
  function distanceAside(at: SiteVector): number {
    const sheaves = lines.filter((l) => l.role === "main").map((l) => l.nodes[1]?.at as SiteVector);
    const middle = [0, 1].map((i) => ((sheaves[0]?.[i] ?? 0) + (sheaves[1]?.[i] ?? 0)) / 2);
    expect(Math.abs((middle[1] ?? 0) - posed.tip[1])).toBeLessThan(1);
    return Math.hypot(at[0] - (middle[0] ?? 0), at[1] - (middle[1] ?? 0));
  }
});

describe("what a swing comes near", () => {
  it("is found to a centimetre of a look at every one of two thousand places", () => {
    for (const [example, stage, along] of [
      [crossingExample, 3, 0.3],
      [crossingExample, 3, 0.6],
      [roofExample, 3, 1],
      [roofExample, 4, 0.5],
      [roofExample, 4, 0.9],
    ] as const) {
      const plan = momentPlan(example, { stage, along });
      const situation = assess(plan);
      for (const { swing } of swingsOf(situation)) {
        if (!swing) throw new Error("no swing");
        const near = nearestOnWay(plan, situation.geometry, swing.way);
        const { geometry } = situation;
        const solids = [...geometry.structures.flatMap((s) => s.solids), geometry.ladder, geometry.vehicleSolid];
        const { heldAt, pivot, ropeM, belowM, onward, heldRad, farRad } = swing.way;
        let least = Number.MAX_VALUE;
        for (let k = 0; k <= 2000; k++) {
          const angle = -heldRad + ((heldRad + farRad) * k) / 2000;
          const out = ropeM * Math.sin(angle);
          const z = pivot[2] - ropeM * Math.cos(angle) + belowM;
          const yoke = [pivot[0] + out * onward[0], pivot[1] + out * onward[1], z] as unknown as SiteVector;
          const { box } = placeLoad(plan, k === 0 ? heldAt : yoke);
          for (const solid of solids) least = Math.min(least, clearance(box, solid).distanceM);
        }
        expect(Math.abs((near?.clearanceM ?? Number.NaN) - least)).toBeLessThan(0.011);
      }
    }
  });
});

describe("letting go over the evolution", () => {
  const evolution = evolve(roofExample);

  it("is told for every stage with a line that pulls, at its worst moment, and stands beside the ledger", () => {
    const told = evolution.stages.flatMap((s) => s.letOuts.map((one) => [s.stage.id, one.nearestTo, one.clearanceM]));
    expect(told).toContainEqual(["beside-wall", "Grain store", 0]);
    const check = evolution.ledger.find((c) => c.id === "let-out/tether");
    expect(check).toMatchObject({ status: "over", counts: false, rule: "let-out" });
    const curve = evolution.series.find((s) => s.id === "swing/tether");
    expect(curve?.values.filter((v) => v !== null).length).toBeGreaterThan(100);
  });

  it("is no better at any moment looked at by itself", () => {
    for (const [index, { letOuts: found }] of evolution.stages.entries()) {
      for (const along of [0, 0.27, 0.55, 1]) {
        for (const one of letOuts(momentPlan(roofExample, { stage: index, along }))) {
          const worst = found.find((f) => f.lineId === one.lineId);
          expect(worst?.clearanceM ?? Number.NaN).toBeLessThanOrEqual((one.clearanceM ?? Number.MAX_VALUE) + 0.05);
        }
      }
    }
  });
});
