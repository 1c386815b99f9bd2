import { STANDARD_GRAVITY_MS2 as G } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import { plumbPlan } from "./testing/plumb-plan.ts";

/** The load on its first main line alone. */
function onOne(plan: Plan): Plan {
  const [first] = plan.rig.mainLines;
  if (!first) throw new Error("no main line");
  return { ...plan, rig: { ...plan.rig, mainLines: [{ ...first, share: 1 }] } };
}
const alone = onOne(plumbPlan());

describe("a load that nothing holds any more", () => {
  const found = letGoAt(alone, null, "main-a", { replay: true });
  const { fall, motion, undamped } = found;
  if (!fall || !motion) throw new Error(`${found.outcome}: ${JSON.stringify(found.says)}`);
  const { heightM, timeS, speedMS } = fall;

  it("falls from its foot to the ground: v = √(2gh), t = √(2h/g)", () => {
    // Any textbook; the box hangs below the yoke by its bridle, and the ground of this plan is at 0.
    const { box, bridle, positionM } = alone.rig.load;
    expect(found.outcome).toBe("falls");
    expect(heightM).toBeCloseTo(positionM[2] - bridle.heightM - box.heightM, 6);
    expect(speedMS).toBeCloseTo(Math.sqrt(2 * G * heightM), 9);
    expect(timeS).toBeCloseTo(Math.sqrt((2 * heightM) / G), 9);
    expect(fall.strikes).toBeNull();
  });

  it("is replayed plumb and in free fall, from rest until it is down", () => {
    expect(motion).toEqual(undamped);
    expect(motion.timesS[0]).toBe(0);
    expect(motion.timesS.at(-1)).toBeCloseTo(timeS ?? 0, 9);
    for (const [i, atS] of motion.timesS.entries()) {
      const [x, y, z] = motion.places.yoke?.[i] ?? [];
      expect([x, y]).toEqual([found.yoke[0], found.yoke[1]]);
      expect(z).toBeCloseTo(found.yoke[2] - 0.5 * G * atS ** 2, 9);
    }
    expect(motion.nearestM["what is below"]?.[0]).toBeCloseTo(heightM, 9);
    expect(motion.nearestM["what is below"]?.at(-1)).toBeCloseTo(0, 9);
  });

  it("has no replay where none is asked for", () => {
    expect(letGoAt(alone, null, "main-a")).toMatchObject({ outcome: "falls", motion: null, undamped: null });
  });

  it("ends at an edge that a part of it strikes before, and says so", () => {
    const [x, y] = alone.rig.load.positionM;
    const [wall] = crossingExample.scene.structures;
    if (!wall) throw new Error("no structure");
    // Under its rim only, and not under its middle.
    const reachM = Math.min(alone.rig.load.box.widthM, alone.rig.load.box.lengthM) / 2;
    const edge = {
      ...wall,
      name: "Ledge",
      outline: [
        [x + 0.9 * reachM, y - 5],
        [x + 9, y - 5],
        [x + 9, y + 5],
        [x + 0.9 * reachM, y + 5],
      ],
      topZM: 3,
      parapetHeightM: 0,
    } as typeof wall;
    const struck = letGoAt({ ...alone, scene: { ...alone.scene, structures: [edge] } }, null, "main-a", {
      replay: true,
    });
    expect(struck.fall).toMatchObject({ heightM, onto: "what is below" });
    const strikes = struck.fall?.strikes;
    expect(strikes).toMatchObject({ what: "Ledge" });
    expect(strikes?.heightM).toBeCloseTo(heightM - 3, 9);
    expect(strikes?.speedMS).toBeCloseTo(Math.sqrt(2 * G * (heightM - 3)), 9);
    expect(struck.motion?.timesS.at(-1)).toBe(strikes?.timeS);
    expect(JSON.stringify(struck.says)).toContain("On its way it strikes Ledge");
  });
});

describe("a load that a brake lets down", () => {
  it("is replayed until it is down, on the ropes that are left", () => {
    // Slips at little more than what it holds as the load hangs: the whole load runs through it.
    const plan = plumbPlan({ slipN: 120 * G * 0.7 });
    const { outcome, fall, motion } = letGoAt(plan, null, "main-a", { replay: true });
    expect(outcome).toBe("falls");
    expect(fall?.slippedM).toBeGreaterThan(1);
    expect(motion?.timesS.at(-1)).toBeCloseTo(fall?.timeS ?? 0, 9);
    expect(motion?.nearestM["what is below"]?.at(-1)).toBeCloseTo(0, 3);
    // A brake slips at its force, and at no other.
    expect(Math.max(...(motion?.tensionsN["main-b"] ?? [])) / (120 * G * 0.7)).toBeCloseTo(1, 3);
  });
});
