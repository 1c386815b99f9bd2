import { STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { letGoChecks } from "../rules/let-go.ts";
import type { Plan } from "../schema/plan.ts";
import { letGoAt } from "./let-go-at.ts";
import { letGoSystem } from "./let-go-system.ts";
import { plumbPlan, withGear } from "./testing/plumb-plan.ts";

const [tag] = crossingExample.rig.taglines;
if (!tag) throw new Error("no tagline");

/** All of the load on the line that goes, and a line made fast to a place 3 m plumb above the yoke. */
function withFastLine(lengthM: number | null): Plan {
  const plan = plumbPlan({ share: 1, slipN: 20_000 });
  const [x, y, z] = evaluate(plan).load.yoke;
  const fast = { ...tag, handler: [x, y, z + 3] as [number, number, number], drive: "length" as const, lengthM };
  return { ...plan, rig: { ...plan.rig, taglines: [fast as (typeof plan.rig.taglines)[number]] } };
}

describe("a line that is made fast and slack", () => {
  const W = 120 * STANDARD_GRAVITY_MS2;
  const ropeOf = (id: string): number => {
    const rope = crossingExample.gear.find((g) => g.id === id);
    if (rope?.kind !== "rope" || rope.dynamicStiffnessN === null) throw new Error("no stiffness");
    return rope.dynamicStiffnessN;
  };

  it.each([0, 0.01, 0.02])("takes its part once its %f m are run in: two springs, by energy", (slackM) => {
    const plan = withFastLine(3 + slackM);
    const main = evaluate(plan).lines.find((l) => l.id === "main-b");
    const k1 = ropeOf("rope-12") / (main?.pathM ?? Number.NaN);
    const k2 = ropeOf("rope-tag") / (3 + slackM);
    // W x = k1 x²/2 + k2 (x − h)²/2 at the lowest place; plumb, no friction: worked here by hand.
    const b = W + k2 * slackM;
    const x = (b + Math.sqrt(b * b - (k1 + k2) * k2 * slackM * slackM)) / (k1 + k2);
    const { figures } = letGoAt(plan, null, "main-a");
    const peakOf = (id: string) => figures?.lines.find((l) => l.lineId === id)?.peakN.entered ?? Number.NaN;
    expect(figures?.dropM.entered).toBeCloseTo(x, 3);
    expect(peakOf("tag-west") / (k2 * (x - slackM))).toBeCloseTo(1, 2);
    expect(peakOf("main-b") / (k1 * x)).toBeCloseTo(1, 2);
  });

  it("is just taut where its length is not known, and pulls where it is shorter than the way", () => {
    const fastLine = (lengthM: number | null) => {
      const found = letGoSystem(assess(withFastLine(lengthM)));
      const line = found.ok ? found.system.lines["tag-west"] : undefined;
      expect(line?.holding).toEqual({ kind: "fixed" });
      return line;
    };
    expect(fastLine(null)?.lengthM).toBeCloseTo(3, 9);
    expect(fastLine(2.9)?.startTensionN).toBeGreaterThan(100);
  });

  it("is unknown where its stiffness is not", () => {
    const found = letGoAt(withGear(withFastLine(3.01), "rope-tag", { dynamicStiffnessN: null }), null, "main-a");
    expect(found.outcome).toBe("unknown");
  });
});

describe("a brake that slips under the load as it hangs", () => {
  const weak = (ids: readonly string[]): Plan => {
    const { gear, rig } = plumbPlan({ slipN: 8000 });
    const brake = gear.find((g) => g.id === "brake-g");
    if (brake?.kind !== "brake") throw new Error("no brake");
    const mainLines = rig.mainLines.map((l) => ({
      ...l,
      brake: { ...l.brake, device: ids.includes(l.id) ? "weak" : l.brake.device },
    }));
    return {
      ...plumbPlan({ slipN: 8000 }),
      gear: [...gear, { ...brake, id: "weak", slipN: 300 }],
      rig: { ...rig, mainLines },
    };
  };

  it("does not hold when the other line goes, and says so in plain words", () => {
    const found = letGoAt(weak(["main-a", "main-b"]), null, "main-a");
    expect(found.outcome).toBe("falls");
    expect(found.fall?.heightM).toBeGreaterThan(1);
    expect(JSON.stringify(found.says)).toContain("The brake of Main B slips under the load as it hangs");
    // Half of 120 kg, less nothing: sheaves without loss.
    expect(found.says).toContainEqual({ value: expect.closeTo(60 * STANDARD_GRAVITY_MS2, 0), quantity: "force" });
    expect(letGoChecks(weak(["main-b"]), [found]).find((c) => c.id === "let-go/holds/main-a")?.status).toBe("over");
  });

  it("does not matter where it is of the line that goes", () => {
    expect(letGoAt(weak(["main-a"]), null, "main-a").outcome).toBe("held");
    expect(letGoAt(weak(["main-a"]), null, "main-b").outcome).toBe("falls");
  });

  it("leaves unknown what follows where another line still holds", () => {
    const plan = weak(["main-a"]);
    const [x, y, z] = evaluate(plan).load.yoke;
    const handler: [number, number, number] = [x + 6, y, z];
    const taglines = [
      { ...tag, handler, drive: "tension" as const, tensionN: 20 } as (typeof plan.rig.taglines)[number],
    ];
    const found = letGoAt({ ...plan, rig: { ...plan.rig, taglines } }, null, "tag-west");
    expect(found.outcome).toBe("unknown");
    expect(JSON.stringify(found.says)).toContain("slips under the load as it hangs");
  });
});

describe("rope that runs through a brake", () => {
  const W = 120 * STANDARD_GRAVITY_MS2;
  /** All of the load goes over to a brake that holds more than the load by this much of it. */
  const goneWith = (over: number) => {
    const plan = plumbPlan({ share: 0.5, slipN: W * over });
    return { plan, found: letGoAt(plan, null, "main-a", { replay: true }) };
  };
  const statusOf = (plan: Plan, found: ReturnType<typeof letGoAt>, id: string) =>
    letGoChecks(plan, [found]).find((c) => c.id === id)?.status;

  it("lets the load down to the ground: it is not held, however slowly it comes", () => {
    // Just less than the weight: the rope runs at a small, steady force left over. Newton: a = g (1 − 0.97).
    const { plan, found } = goneWith(0.97);
    expect(found.outcome).toBe("falls");
    expect(found.figures).toBeNull();
    expect(found.fall?.onto).toBe("what is below");
    expect(found.fall?.heightM).toBeCloseTo(found.roomM, 9);
    expect(found.fall?.slippedM).toBeGreaterThan(0.8 * found.roomM);
    // Energy: F − W over the height, from rest; rope stretch left aside.
    expect(found.fall?.speedMS).toBeLessThan(Math.sqrt(2 * 0.04 * STANDARD_GRAVITY_MS2 * found.roomM));
    expect(JSON.stringify(found.says)).toContain("its brake lets ");
    expect(statusOf(plan, found, "let-go/holds/main-a")).toBe("over");
    expect(letGoAt(plan, null, "main-a", { pass: "ends" }).outcome).toBe("falls");
  });

  it("is followed until it stops, and held against the most allowed", () => {
    const { plan, found } = goneWith(1.02);
    const [line] = found.figures?.lines ?? [];
    // Energy, worked here by hand: let go at W/2, the rope is at F = 1.02 W with (F − W/2)(W − (F + W/2)/2)/k to lose, at F − W.
    const path = evaluate(plan).lines.find((l) => l.id === "main-b")?.pathM ?? Number.NaN;
    const slipsM = ((1.02 - 0.5) * (1 - (1.02 + 0.5) / 2) * W * path) / (0.02 * 170_000);
    const entered = letGoAt(plan, null, "main-a", { pass: "loose" }).figures?.lines[0]?.slippedM ?? 0;
    // The rope that comes in makes it softer, by as much of its length.
    expect(entered / slipsM).toBeGreaterThan(0.98);
    expect(entered / slipsM).toBeLessThan(1 + entered / path);
    expect(found.outcome).toBe("held");
    expect(line?.slippedM).toBeGreaterThan(1);
    expect(statusOf(plan, found, "let-go/slip/main-b")).toBe("over");
    expect(JSON.stringify(found.says)).toContain("of rope runs through its brake");
    const swept = letGoAt(plan, null, "main-a", { pass: "ends" }).figures?.lines[0]?.slippedM ?? 0;
    expect(swept / (line?.slippedM ?? 1)).toBeCloseTo(1, 1);
  });

  it("within, over, and unknown where brake or policy say nothing", () => {
    const { plan, found } = goneWith(1.2);
    const slipM = found.figures?.lines[0]?.slippedM ?? 0;
    expect(slipM).toBeGreaterThan(0);
    const allowed = (value: number | null): Plan => ({
      ...plan,
      policy: { ...plan.policy, peakSlipM: { value, source: "" } },
    });
    expect(statusOf(allowed(2 * slipM), found, "let-go/slip/main-b")).toBe("within");
    expect(statusOf(allowed(0.9 * slipM), found, "let-go/slip/main-b")).toBe("over");
    expect(statusOf(allowed(null), found, "let-go/slip/main-b")).toBe("unknown");
    expect(statusOf(plan, { ...found, slipUnknown: ["main-b"] }, "let-go/slip/main-b")).toBe("unknown");
  });
});
