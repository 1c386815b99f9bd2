import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
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
