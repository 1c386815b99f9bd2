import {
  add,
  addScaled,
  distance,
  norm,
  poseAerial,
  type SiteVector,
  scale,
  site,
  subtract,
  unit,
  ZERO,
} from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluateAt } from "../evolve/evaluate-at.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { roofExample } from "../examples/roof.ts";
import { seededRandom } from "../fuzz/seeded-random.ts";
import type { Plan } from "../schema/plan.ts";
import { mirroredPlan } from "../testing/mirrored-plan.ts";
import { hangJointly } from "./hang-jointly.ts";
import type { HeldThere } from "./held-there.ts";
import { type LaidRig, layLines } from "./lay-lines.ts";
import type { KeptLength, LinesLetHang } from "./lines-let-hang.ts";
import { ropesAtYokeN } from "./rope-weight.ts";

/** The ladder swung aside, so that the load's way lies out of its plane. */
const swung = (plan: Plan, bearingRad: number, elevationRad = 0): Plan => {
  const { aerial } = plan;
  const { pose } = aerial;
  return {
    ...plan,
    aerial: {
      ...aerial,
      pose: {
        ...pose,
        bearingRad: pose.bearingRad + bearingRad,
        elevationRad: pose.elevationRad + elevationRad,
      },
    },
  };
};

const plan = momentPlan(roofExample, { stage: 2, along: 0.6 });
const START = site(...(plan.rig.load.positionM as [number, number, number]));
const FORCE = site(0, 0, -1300);

const pullOf = (from: SiteVector, to: SiteVector, tensionN: number): SiteVector =>
  scale(unit(subtract(to, from)), tensionN);

/** Where the search begins: sheaves straight below their points, the pulley on the way back. */
const begin = (rig: LaidRig): HeldThere => ({
  floating: {
    sheaves: rig.mains.map((m) => addScaled(m.pointAt, site(0, 0, -1), m.line.tip.reachM)),
    rider: addScaled(START, site(0, -1, 0.5), 2),
    pulled: true,
    against: null,
  },
  found: { yoke: START, mainsN: [], tagsN: [], tetherN: 0, groundN: null, residualN: 0 },
});

/** Length of a main line as it hangs, m. */
const pathM = (
  rig: LaidRig,
  i: number,
  { floating: { sheaves, rider, against }, found: { yoke } }: HeldThere,
): number => {
  const main = rig.mains[i];
  const sheave = sheaves[i];
  if (!main || !sheave || !rider) throw new Error("no main");
  const places = [yoke, sheave, ...(against === null ? [rider] : []), ...main.anchors.map((a) => a.at)];
  return places.slice(1).reduce((sum, p, k) => sum + distance(places[k] ?? p, p), 0);
};

/**
 * The balance of forces, taken anew: at the load, at the pulley, and of each sling along its rope's pull; and each rope as long as
 * its tension stretches it. The energy of such ropes is convex, so what balances is the one place there is (statics).
 */
function expectAtRest(rig: LaidRig, lines: LinesLetHang, hung: HeldThere): void {
  const { yoke, mainsN, tetherN } = hung.found;
  const { rider, sheaves, against } = hung.floating;
  if (!rider) throw new Error("no pulley");
  const ropesN = ropesAtYokeN(rig, yoke, hung.floating);
  let onLoad = add(addScaled(FORCE, site(0, 0, -1), ropesN), pullOf(yoke, rider, tetherN));
  let onPulley = pullOf(rider, yoke, tetherN);
  for (const [i, main] of rig.mains.entries()) {
    const sheave = sheaves[i] ?? ZERO;
    const tensionN = mainsN[i] ?? 0;
    const next = main.anchors[0]?.at ?? ZERO;
    onLoad = add(onLoad, pullOf(yoke, sheave, tensionN));
    onPulley = add(onPulley, add(pullOf(rider, sheave, tensionN), pullOf(rider, next, tensionN)));
    const onSheave = add(pullOf(sheave, yoke, tensionN), pullOf(sheave, against === null ? rider : next, tensionN));
    expect(distance(sheave, main.pointAt)).toBeCloseTo(main.line.tip.reachM, 5);
    if (tensionN > 0) expect(distance(unit(onSheave), unit(subtract(sheave, main.pointAt)))).toBeLessThan(1e-6);
    const kept = lines.mains[i] as KeptLength;
    expect(Math.max(kept.lengthM, pathM(rig, i, hung))).toBeCloseTo(kept.lengthM * (1 + tensionN / kept.stiffnessN), 6);
  }
  expect(norm(onLoad)).toBeLessThan(1e-5);
  if (against === null) expect(norm(onPulley)).toBeLessThan(1e-5);
  if (typeof lines.tether !== "number")
    expect(Math.max(lines.tether.lengthM, distance(yoke, rider))).toBeCloseTo(
      lines.tether.lengthM * (1 + tetherN / lines.tether.stiffnessN),
      6,
    );
}

describe("load, sheaves and pulley settled at once", () => {
  it("balance, whatever the ladder's bearing and the lines' lengths, or the pulley is drawn up", () => {
    const { fraction } = seededRandom(20);
    const between = (low: number, high: number): number => low + (high - low) * fraction();
    let drawnUp = 0;
    let settled = 0;
    let apart = 0;
    for (let run = 0; run < 60; run++) {
      const one = swung(plan, between(-0.25, 0.25), between(-0.05, 0.05));
      const rig = layLines(one, poseAerial(one.aerial.device, one.aerial.place, one.aerial.pose));
      const from = begin(rig);
      const about = rig.mains.map((_, i) => pathM(rig, i, from) - between(-0.5, 1.5));
      const lines: LinesLetHang = {
        mains: about.map((lengthM) => ({ lengthM, stiffnessN: between(20_000, 200_000) })),
        tags: [],
        tether: run % 3 === 0 ? between(20, 900) : { lengthM: between(0.4, 5), stiffnessN: 90_000 },
      };
      const hung = hangJointly(rig, lines, from, { forceN: FORCE, standing: null });
      expect(hung).not.toBeNull();
      if (hung === null) continue;
      if (hung === "drawnUp") {
        drawnUp++;
        // Only a pull can do that: a tackle has a length.
        expect(typeof lines.tether).toBe("number");
        continue;
      }
      expectAtRest(rig, lines, hung);
      settled++;
      if (Math.abs(hung.found.yoke[0]) > 0.3) apart++;
    }
    expect(drawnUp).toBeGreaterThan(2);
    expect(settled).toBeGreaterThan(40);
    expect(apart).toBeGreaterThan(20);
  });
});

describe("a load that its lines do not hold, the ladder swung aside", () => {
  const moments = plan.evolution.stages.flatMap((_, stage) => [0, 0.35, 0.7, 1].map((along) => ({ stage, along })));

  it.each([-0.2, -0.08, 0.08, 0.2])("goes to a place that is told, swung by %d rad", (bearingRad) => {
    const turned = swung(roofExample, bearingRad);
    const states = moments.map((when) => evaluateAt(turned, when).holding);
    expect(states.filter((s) => s.state === "unsolved" && s.code === "not-converged")).toEqual([]);
    expect(states.filter((s) => s.state === "drifts").length).toBeGreaterThan(10);
  });

  it("goes the other way, as far, where the scene is mirrored", () => {
    const turned = swung(roofExample, 0.12);
    let apart = 0;
    for (const when of moments) {
      const [here, there] = [turned, mirroredPlan(turned)].map((one) => evaluateAt(one, when));
      if (here?.holding.state !== "drifts" || !there) continue;
      for (const [c, sign] of [-1, 1, 1].entries())
        expect(there.load.yoke[c]).toBeCloseTo(sign * (here.load.yoke[c] ?? Number.NaN), 5);
      apart = Math.max(apart, Math.abs(here.load.yoke[0]));
    }
    expect(apart).toBeGreaterThan(0.5);
  });
});
