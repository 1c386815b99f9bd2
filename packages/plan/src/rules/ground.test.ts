import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { evolve } from "../evolve/evolve.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { deviceById } from "../library/device-by-id.ts";
import type { Plan } from "../schema/plan.ts";
import type { Scene } from "../schema/scene.ts";
import { writePhrase } from "../units/write-amount.ts";

/** The crossing's litter hangs with its underside 1.5 m below the yoke. */
const BELOW_YOKE_M = 1.5;

const withScene = (plan: Plan, change: Partial<Scene>): Plan => ({ ...plan, scene: { ...plan.scene, ...change } });
/** The crossing with nothing in the way, its litter plumb below the tip and so high over level 0. */
function withBottomAt(zM: number, change: Partial<Scene> = {}): Plan {
  const plan = withScene(crossingExample, { structures: [], areas: [], ...change });
  const load = { ...plan.rig.load, positionM: [-1.4, 10.66, zM + BELOW_YOKE_M] as [number, number, number] };
  return { ...plan, rig: { ...plan.rig, load } };
}
const check = (plan: Plan, id: string): Check => {
  const found = evaluate(plan).ledger.find((c) => c.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
};
const says = (c: Check): string => writePhrase(c.says, "metric").replace(/\s/g, " ");
const under = (kind: "gap" | "water" | "keepOut", zM: number): Partial<Scene> => ({
  areas: [
    {
      id: "under",
      name: "Mill race",
      kind,
      outline: [
        [-6, 8],
        [4, 8],
        [4, 14],
        [-6, 14],
      ],
      zM,
    },
  ],
});

describe("the load over the ground", () => {
  // Levels by hand: site level 0, no parking ground below the litter.
  it.each([
    [3, "within"],
    [0, "within"],
    [-0.05, "within"],
    [-0.095, "close"],
    [-0.12, "over"],
    [-6.5, "over"],
  ])("is, %s m above it: %s", (heightM, status) => {
    const found = check(withBottomAt(heightM), "ground/load");
    expect(found.status).toBe(status);
    expect(found.working.terms[0]?.value).toBeCloseTo(heightM, 2);
    expect(found.counts).toBe(true);
  });

  it("says how deep, and what to do", () => {
    expect(says(check(withBottomAt(-6.5), "ground/load"))).toMatch(/^6\.50 m deep in the ground\. Keep it above/);
    expect(says(check(withBottomAt(3), "ground/load"))).toMatch(/^3\.00 m above the ground\.$/);
  });

  it("takes gaps and water at their own level, and a keep-out for the ground about it", () => {
    expect(check(withBottomAt(-2, under("gap", -3)), "ground/load").status).toBe("within");
    const wet = check(withBottomAt(-0.4, under("water", 0)), "ground/load");
    expect([wet.status, says(wet)]).toEqual(["over", expect.stringMatching(/^0\.40 m deep in "Mill race"\./)]);
    expect(check(withBottomAt(-0.4, under("keepOut", -3)), "ground/load").status).toBe("over");
  });

  it("lies along a slope that a vehicle may stand on", () => {
    // 5 % under a litter 2.1 m long, level, its middle on the ground: its uphill end is 1.05 × 0.05 = 5.25 cm in it.
    const parking: Scene["parking"] = [
      {
        ...(crossingExample.scene.parking[0] as Scene["parking"][number]),
        outline: [
          [-30, 10.66],
          [-30, 30],
          [30, 30],
          [30, -30],
          [-30, -30],
        ],
        zM: 0,
        slopeRad: Math.atan(0.05),
        downhillBearingRad: 0,
      },
    ];
    const found = check(withBottomAt(0, { parking }), "ground/load");
    expect(found.status).toBe("within");
    expect(found.demand?.value).toBeCloseTo(1.05 * 0.05, 2);
  });

  it("is unknown where nothing tells where the load would hang", () => {
    const plan = withBottomAt(3);
    const parts = plan.rig.load.parts.map((p) => ({ ...p, massKg: null }));
    const found = check({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts } } }, "ground/load");
    expect(found.status).toBe("unknown");
    expect(says(found)).toMatch(/not known where it would hang/);
  });

  it("is within for a rescuer let down onto the very roof, and over nothing there", () => {
    // Box 1.8 m high below a 0.6 m bridle, roof at 9 m: the yoke at 11.4 m stands on it.
    const load = { ...roofExample.rig.load, positionM: [0, 10.4, 11.4] as [number, number, number] };
    const { ledger } = evaluate({ ...roofExample, rig: { ...roofExample.rig, load } });
    expect(ledger.filter((c) => c.counts && c.status === "over").map((c) => c.id)).toEqual([]);
  });
});

describe("the ladder over the ground", () => {
  const posed = (device: string, elevationDeg: number, lengthM: number): Plan => ({
    ...crossingExample,
    scene: { ...crossingExample.scene, structures: [] },
    aerial: {
      ...crossingExample.aerial,
      device: deviceById(device),
      pose: { bearingRad: 0, elevationRad: (elevationDeg * Math.PI) / 180, lengthM },
    },
  });

  it("is above it where it is raised, with its platform", () => {
    for (const device of ["example-ladder-30", "example-platform-30"])
      expect(check(posed(device, 60, 20), "ground/ladder").status).toBe("within");
  });

  it.each(["example-ladder-30", "example-platform-30"])("is over where %s is let down through it", (device) => {
    // 28 m at 7° down: the tip 3.4 m below a pivot that is lower than that.
    const found = check(posed(device, -7, 28), "ground/ladder");
    expect(crossingExample.aerial.place.groundZM + deviceById(device).pivotHeightM).toBeLessThan(3.4);
    expect([found.status, says(found)]).toEqual([
      "over",
      expect.stringMatching(/deep in the ground\. The ladder may not/),
    ]);
  });
});

describe("over an evolution", () => {
  it.each(EXAMPLES.map((e) => [e.key, e.plan] as const))("%s is never in the ground", (_, plan) => {
    const found = evolve(plan).ledger.filter((c) => c.rule === "ground" || c.id.startsWith("clearance/loadToVehicle"));
    expect(found.map((c) => [c.id, c.status])).toEqual(
      expect.arrayContaining([
        ["ground/load", "within"],
        ["ground/ladder", "within"],
        ["clearance/loadToVehicle/load/vehicle", "within"],
      ]),
    );
    expect(found).toHaveLength(3);
  });

  it("lets a litter stand on the ground where stages begin and end, and tells one that goes below it", () => {
    const endingAt = (zM: number) => {
      const { startM, stages } = crossingExample.evolution;
      const plan: Plan = {
        ...crossingExample,
        evolution: {
          startM: [startM[0], startM[1], BELOW_YOKE_M],
          stages: stages.map((s) => (s.id === "lower" ? { ...s, path: [[1.6, 10.66, BELOW_YOKE_M + zM]] } : s)),
        },
      };
      const { ledger, stages: swept } = evolve(plan);
      const told = swept.flatMap((s) => s.problems).map((p) => writePhrase(p.says, "metric"));
      return { over: ledger.filter((c) => c.counts && c.status === "over").map((c) => c.id), told };
    };
    expect(endingAt(0)).toEqual({ over: [], told: [] });
    const deep = endingAt(-2);
    expect(deep.over).toContain("ground/load");
    expect(deep.told).toEqual([expect.stringMatching(/the load goes into the ground\.$/)]);
  });
});
