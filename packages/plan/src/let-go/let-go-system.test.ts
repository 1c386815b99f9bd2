import { letGo } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { LetGoChoices, PlanSystem } from "./let-go-plan-types.ts";
import { letGoSystem } from "./let-go-system.ts";
import { floorOf } from "./load-stops.ts";
import { letGoMoments } from "./sweep-cuts.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";

function built(plan = crossingExample, choices: LetGoChoices = {}): PlanSystem {
  const found = letGoSystem(assess(plan), choices);
  if (!found.ok) throw new Error(JSON.stringify(found.says));
  return found;
}

describe("a rig as a dynamic system", () => {
  it("moves by nothing while nothing goes, with every choice, at every tenth moment", () => {
    let tried = 0;
    for (const plan of [crossingExample, roofExample]) {
      for (const [i, when] of letGoMoments(plan).entries()) {
        if (i % 10 !== 0) continue;
        for (const choices of [
          {},
          { ran: "lower" },
          { rider: "moves" },
          { tip: { stiffnessNM: 3e4, massKg: 300 } },
        ] as const) {
          const { system } = built(momentPlan(plan, when), choices);
          const still = letGo({ ...system, solids: {} }, [], { durationS: 3 });
          if (!still.ok) throw new Error(still.hint);
          expect(still.load.dropM).toBeLessThan(1e-6);
          expect(still.load.swingM).toBeLessThan(1e-6);
          expect(still.touches.filter((t) => t.speedMS > 1e-6)).toEqual([]);
          tried++;
        }
      }
    }
    expect(tried).toBeGreaterThan(80);
  });

  it("runs each line over the places the plan has, with the dynamic stiffness of its rope and its brake's slip", () => {
    const { system, slipUnknown } = built(withGear(crossingExample, "brake-g", { slipN: 5000 }));
    // Yoke, tip, two redirects and the brake: the example's reeving.
    expect(system.lines["main-a"]).toMatchObject({
      axialStiffnessN: 170_000,
      holding: { kind: "brake", slipsAtN: 5000 },
      efficiency: [0.93, 0.93, 0.93],
    });
    expect(system.lines["main-a"]?.through).toHaveLength(5);
    expect(slipUnknown).toEqual([]);
    // Three people at 222 N, the policy's pull: the crew of the west tagline.
    expect(system.lines["tag-west"]?.holding).toEqual({ kind: "fixed", letsGoAtN: 666 });
  });

  it("says of a brake whose slip is not known that it holds fast, unless the policy gives one", () => {
    const { system, slipUnknown } = built();
    expect(slipUnknown).toEqual(["main-a", "main-b"]);
    expect(system.lines["main-a"]?.holding).toEqual({ kind: "fixed" });
    const policy = { ...crossingExample.policy, brakeSlipN: { value: 4000, source: "a department's test" } };
    expect(built({ ...crossingExample, policy }).slipUnknown).toEqual([]);
  });

  it("is not known where the rope's dynamic stiffness, a sheave, the load's mass or the hands' pull are not", () => {
    const { policy, rig } = crossingExample;
    const [part, ...parts] = rig.load.parts;
    if (!part) throw new Error("no part");
    for (const plan of [
      withGear(crossingExample, "rope-12", { dynamicStiffnessN: null }),
      withGear(crossingExample, "sheave-large", { efficiency: null }),
      { ...crossingExample, rig: { ...rig, load: { ...rig.load, parts: [{ ...part, massKg: null }, ...parts] } } },
      { ...crossingExample, policy: { ...policy, pullPerPersonN: { value: null, source: "" } } },
    ])
      expect(letGoSystem(assess(plan))).toMatchObject({ ok: false, code: "unknown" });
  });

  it("raises ground and walls by as much as the box's middle hangs below the yoke: the same gap to the ground", () => {
    const plan = plumbPlan();
    const { system, boxDropM } = built(plan);
    const { bridle, box } = plan.rig.load;
    expect(boxDropM).toBeCloseTo(bridle.heightM + box.heightM / 2, 12);
    const floor = system.stops?.[floorOf("yoke")];
    if (!floor || !("pointM" in floor)) throw new Error("no ground");
    const foot = 12 - bridle.heightM - box.heightM;
    expect(12 - (system.nodes.yoke?.halfSizeM?.[2] ?? 0) - floor.pointM[2]).toBeCloseTo(foot, 9);
  });
});
