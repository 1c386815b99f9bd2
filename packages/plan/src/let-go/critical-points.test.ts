import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import { criticalPoints } from "./critical-points.ts";
import type { CriticalPoint } from "./let-go-plan-types.ts";
import { withGear } from "./testing/plumb-plan.ts";

const WHEN = { stage: 3, along: 0.5 };
const byId = (plan: Plan, id: string): CriticalPoint => {
  const found = criticalPoints(plan, WHEN).find((p) => p.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

function withBrakesAt(a: string, b: string): Plan {
  const { rig } = crossingExample;
  const mainLines = rig.mainLines.map((l, i) => ({
    ...l,
    brake: { ...l.brake, anchorage: { on: "vehicle" as const, anchorId: i === 0 ? a : b } },
  }));
  return { ...crossingExample, rig: { ...rig, mainLines } };
}

describe("critical points", () => {
  const points = criticalPoints(crossingExample, WHEN);

  it("are all parts, anchors and hands, worst first, each once", () => {
    expect(new Set(points.map((p) => p.id)).size).toBe(points.length);
    for (const id of [
      "main-a/rope",
      "main-b/base.sheave",
      "anchor/turntable-3",
      "point/tip-left",
      "tag-west/hands",
      "everyone",
    ])
      expect(points.map((p) => p.id)).toContain(id);
    const rank = { falls: 0, unknown: 1, held: 2 };
    const ranks = points.map((p) => rank[p.outcome]);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(points.every((p) => p.says.length > 0)).toBe(true);
  });

  it("finds what both ropes share without being told: yoke and ladder, and that a person falls", () => {
    const shared = points.filter((p) => p.outcome === "falls");
    expect(shared.map((p) => p.id).sort()).toEqual(["ladder", "load/litter", "load/yoke"]);
    expect(shared.every((p) => p.shared && JSON.stringify(p.says).includes("a person falls"))).toBe(true);
  });

  it("finds one anchor under both brakes by its identity, and none where they are two", () => {
    const one = byId(withBrakesAt("right-low-2", "right-low-2"), "anchor/right-low-2");
    expect(one).toMatchObject({ shared: true, outcome: "falls", lines: ["main-a", "main-b"] });
    expect(byId(crossingExample, "anchor/right-low-2")).toMatchObject({ shared: false, outcome: "held" });
  });

  it("finds one rigging point under both tip sheaves, and one place on the ground", () => {
    const { rig } = crossingExample;
    const ground = {
      on: "ground" as const,
      position: [2, -3, 0] as [number, number, number],
      ratingN: null,
      ratingBasis: null,
      ratingSource: "",
    };
    const plan: Plan = {
      ...crossingExample,
      rig: {
        ...rig,
        mainLines: rig.mainLines.map((l) => ({
          ...l,
          tip: { ...l.tip, pointId: "tip-left" },
          brake: { ...l.brake, anchorage: ground },
        })),
      },
    };
    expect(byId(plan, "point/tip-left")).toMatchObject({ shared: true, outcome: "falls" });
    expect(byId(plan, "anchor/ground.200.-300.0")).toMatchObject({ shared: true, outcome: "falls" });
  });

  it("lets the rope run slack by what a redirect took up, and not away", () => {
    const { rig } = crossingExample;
    // One base redirect under both lines: both go slack at once, and are caught.
    const mainLines = rig.mainLines.map((l) => ({
      ...l,
      redirects: l.redirects.map((r) =>
        r.id === "jack" ? { ...r, anchorage: { on: "vehicle" as const, anchorId: "jack-rear-right" } } : r,
      ),
    }));
    const found = byId({ ...crossingExample, rig: { ...rig, mainLines } }, "anchor/jack-rear-right");
    expect(found.shared).toBe(true);
    expect(found.result?.cut).toEqual([]);
    expect(found.outcome === "falls" || (found.result?.figures?.dropM.entered ?? 0) > 0.3).toBe(true);
  });

  it("asks of hands on a brake whether it holds without them", () => {
    expect(byId(crossingExample, "main-a/brake.hands").outcome).toBe("held");
    const unknown = withGear(crossingExample, "brake-g", { holdsHandsOff: null });
    expect(byId(unknown, "main-a/brake.hands").outcome).toBe("unknown");
    expect(byId(unknown, "everyone").outcome).toBe("unknown");
    const open = withGear(crossingExample, "brake-g", { holdsHandsOff: false });
    expect(byId(open, "main-a/brake.hands")).toMatchObject({ outcome: "held", result: { cut: ["main-a"] } });
    expect(byId(open, "everyone").outcome).toBe("falls");
  });

  it("counts a single bridle leg as all of the load, and one of several as not known", () => {
    expect(criticalPoints(roofExample, { stage: 4, along: 0.5 }).find((p) => p.id === "load/bridle.leg")?.outcome).toBe(
      "falls",
    );
    expect(points.find((p) => p.id === "load/bridle.leg")?.outcome).toBe("unknown");
  });
});
