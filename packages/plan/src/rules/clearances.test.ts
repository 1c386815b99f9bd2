import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { GearOf } from "../schema/gear.ts";
import type { Plan } from "../schema/plan.ts";
import type { LimitName } from "../schema/policy.ts";
import type { Scene } from "../schema/scene.ts";
import { writePhrase } from "../units/write-amount.ts";

type Structure = Scene["structures"][number];

const withScene = (plan: Plan, change: Partial<Scene>): Plan => ({ ...plan, scene: { ...plan.scene, ...change } });
const withLimits = (plan: Plan, value: number | null, ...names: LimitName[]): Plan => ({
  ...plan,
  policy: { ...plan.policy, ...Object.fromEntries(names.map((n) => [n, { value, source: "test" }])) },
});
const withLoadAt = (plan: Plan, positionM: [number, number, number]): Plan => ({
  ...plan,
  rig: { ...plan.rig, load: { ...plan.rig.load, positionM } },
});
const matching = (plan: Plan, id: RegExp): readonly Check[] => evaluate(plan).ledger.filter((c) => id.test(c.id));
const says = (c: Check | undefined): string => writePhrase(c?.says ?? [], "metric");

describe("what touches", () => {
  // A tower drawn round ladder, load and ropes, and a wire through the ladder.
  const tower: Structure = {
    id: "tower",
    name: "Tower",
    kind: "building",
    outline: [
      [-30, 3],
      [30, 3],
      [30, 30],
      [-30, 30],
    ],
    baseZM: 0,
    topZM: 40,
    parapetHeightM: 0,
    parapetThicknessM: 0,
  };
  const inTower = withScene(crossingExample, { structures: [...crossingExample.scene.structures, tower] });
  const ASKED = ["ladderClearanceM", "loadClearanceM", "loadToLadderClearanceM", "ropeClearanceM"] as const;

  it.each([0, null, 0.3])("is over whatever distance is asked for: %s", (asked) => {
    const touching = matching(withLimits(inTower, asked, ...ASKED), /^clearance\/.*\/tower$/);
    expect(new Set(touching.map((c) => c.id.split("/")[1]))).toEqual(new Set(["ladder", "load", "rope"]));
    for (const check of touching) {
      expect(check.status, check.id).toBe("over");
      expect(says(check)).toMatch(/^Touches\. /);
    }
  });

  it("is over on a power line of unknown voltage as well", () => {
    const [first] = crossingExample.scene.powerLines;
    if (!first) throw new Error("the example has a power line");
    const wire: (typeof first)["wire"] = [
      [-30, 7, 16],
      [30, 7, 16],
    ];
    const plan = withScene(crossingExample, { powerLines: [{ ...first, voltageKv: null, wire }] });
    expect(matching(plan, /^power-line\/power\/ladder\//).map((c) => c.status)).toEqual(["over"]);
    expect(matching(plan, /^power-line\/power\/vehicle\//).map((c) => c.status)).toEqual(["unknown"]);
  });

  it("holds for the tether's pulley on the ladder", () => {
    // A ladder so deep that the returning ropes, and the pulley on them, are within it.
    const deep = {
      ...roofExample,
      aerial: { ...roofExample.aerial, device: { ...roofExample.aerial.device, beamDepthM: 8 } },
    };
    const [check] = matching(
      withLimits(withLoadAt(deep, [0, 7.9, 13.8]), 0, "ropeClearanceM"),
      /^tether\/clear-of-ladder$/,
    );
    expect(check?.limit?.value).toBe(0);
    expect(check?.status).toBe("over");
  });
});

describe("a tagline that hangs", () => {
  /** The crossing with its west tagline off and the east one led level over a low wall, pulled so hard. */
  function overWall(
    tensionN: number,
    change: Partial<GearOf<"rope">> = {},
    drive: "tension" | "asNeeded" = "tension",
  ): Plan {
    const { rig } = crossingExample;
    const [, y, z] = rig.load.positionM;
    const wall: Structure = {
      id: "low-wall",
      name: "Low wall",
      kind: "wall",
      outline: [
        [7, 8],
        [7.6, 8],
        [7.6, 14],
        [7, 14],
      ],
      baseZM: 0,
      topZM: z - 1.5,
      parapetHeightM: 0,
      parapetThicknessM: 0,
    };
    const east = rig.taglines.filter((t) => t.id === "tag-east");
    return {
      ...withScene(crossingExample, { structures: [wall] }),
      gear: crossingExample.gear.map((g) => (g.kind === "rope" && g.id === "rope-tag" ? { ...g, ...change } : g)),
      rig: {
        ...rig,
        taglines: east.map((t) => ({ ...t, drive, tensionN, handler: [16, y, z] as [number, number, number] })),
      },
    };
  }
  const rope = (plan: Plan): Check | undefined => matching(plan, /^clearance\/rope\/tag-east\//)[0];

  it.each([80, 20])("pulled with %d N hangs by the parabola of its weight", (tensionN) => {
    // Below the straight line by w x (L − x) ÷ 2 T: the flat parabola of any text on cables; 0.056 kg/m × 9.81 m/s².
    // To 5 cm: it takes the line as level, and is not told which pull the weight of the line itself is part of.
    const plan = overWall(tensionN);
    const [x, , z] = evaluate(plan).load.yoke;
    const [along, span, handsZ] = [7.3 - x, 16 - x, crossingExample.rig.load.positionM[2]];
    const straightZ = z + ((handsZ - z) * along) / span;
    const expectedM = straightZ - (0.056 * 9.81 * along * (span - along)) / (2 * tensionN) - (handsZ - 1.5);
    const found = rope(plan);
    expect(Math.abs((found?.limit?.value ?? Number.NaN) - expectedM)).toBeLessThan(0.05);
    expect(straightZ - (handsZ - 1.5) - expectedM).toBeGreaterThan(0.15);
  });

  it("is over where it hangs onto the wall, though a straight line would clear it", () => {
    const found = rope(overWall(9));
    expect(found?.status).toBe("over");
    expect(says(found)).toMatch(/^Touches\./);
  });

  it.each([
    ["it is pulled too little to hang free", overWall(4), /own weight drags it down/],
    ["nothing pulls it", overWall(0), /nothing pulls it/],
    ["the weight of its rope is not known", overWall(80, { linearMassKgM: null }), /weight of its rope is not known/],
  ])("is unknown where %s, to structures and to power lines", (_, plan, why) => {
    const found = rope(plan);
    expect(found?.status).toBe("unknown");
    expect(says(found)).toMatch(why);
    expect(says(found)).toMatch(/from a straight line/);
    // A wire so near that the rope could come to it however it hangs; the example's own is far off, level-wise.
    const [far] = matching(plan, /^power-line\/power\/tag-east\//);
    expect([far?.status, says(far)]).toEqual([
      "within",
      expect.stringMatching(/^At least 28\.\d+\sm apart however it hangs/),
    ]);
    const above = crossingExample.scene.powerLines.map((l) => ({
      ...l,
      wire: l.wire.map(([x, , z]): [number, number, number] => [x, 12, z + 30]),
    }));
    const [near] = matching(withScene(plan, { powerLines: above }), /^power-line\/power\/tag-east\//);
    expect([near?.status, says(near)]).toEqual(["unknown", expect.stringMatching(why)]);
  });

  it("is within, however it hangs, of a wall beside it", () => {
    const plan = overWall(0);
    const beside = plan.scene.structures.map((s) => ({
      ...s,
      outline: s.outline.map(([x, y]): [number, number] => [x, y + 5]),
    }));
    const found = rope(withScene(plan, { structures: beside }));
    expect(found?.status).toBe("within");
    expect(says(found)).toMatch(/^At least 2\.\d+\sm apart however it hangs/);
    // But not where another one lies below it.
    expect(rope(withScene(plan, { structures: [...beside, ...plan.scene.structures] }))?.status).toBe("unknown");
  });

  it("hangs the same whatever its stretch, and straight down from the yoke where the hands are below it", () => {
    const limitOf = (plan: Plan) => rope(plan)?.limit?.value;
    expect(limitOf(overWall(30, { staticStiffnessN: null }))).toBe(limitOf(overWall(30)));
    const plan = overWall(80);
    const below = plan.rig.taglines.map((t) => ({ ...t, handler: [0.2, 10.66, 1] as [number, number, number] }));
    expect(rope({ ...plan, rig: { ...plan.rig, taglines: below } })?.status).toBe("within");
  });

  it("is measured to a power line up to the very hands", () => {
    const [wire] = crossingExample.scene.powerLines;
    if (!wire) throw new Error("the example has a power line");
    const plan = overWall(80);
    const { handler } = plan.rig.taglines[0] ?? {};
    if (!handler) throw new Error("the example has a tagline");
    const [x, y, z] = handler;
    const upright = {
      ...wire,
      wire: [
        [x + 1, y, z - 5],
        [x + 1, y, z + 5],
      ] as (typeof wire)["wire"],
    };
    const found = matching(withScene(plan, { powerLines: [upright] }), /^power-line\/power\/tag-east\//);
    expect(found[0]?.limit?.value).toBeCloseTo(1, 6);
  });
});

describe("the load and the vehicle", () => {
  // The vehicle looks south with its turntable at (0, 3), its rear 3 m or so behind it.
  const near = (y: number, z: number): Check | undefined =>
    matching(
      withLoadAt(withScene(crossingExample, { structures: [] }), [0, y, z]),
      /^clearance\/loadToVehicle\/load\/vehicle$/,
    )[0];

  it("is within where the load hangs well behind it, and over where it hangs down onto it", () => {
    expect(near(10.66, 3)?.status).toBe("within");
    const { device } = crossingExample.aerial;
    const rearY = crossingExample.aerial.place.turntableY + device.outline.rearM;
    const plan = {
      ...withScene(crossingExample, { structures: [] }),
      aerial: { ...crossingExample.aerial, pose: { ...crossingExample.aerial.pose, elevationRad: 1.45, lengthM: 12 } },
    };
    // Plumb below the tip of a steep, short ladder, over the rear of the vehicle.
    const tip = evaluate(plan).geometry.posed.tip;
    expect(tip[1]).toBeLessThan(rearY);
    const down = withLoadAt(plan, [tip[0], tip[1], device.outline.heightM + 1]);
    const [found] = matching(down, /^clearance\/loadToVehicle\/load\/vehicle$/);
    expect([found?.status, says(found)]).toEqual([
      "over",
      expect.stringMatching(/^Touches\. Hold the load off the vehicle/),
    ]);
  });
});
