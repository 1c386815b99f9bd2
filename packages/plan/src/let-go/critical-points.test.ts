import { describe, expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import type { Plan } from "../schema/plan.ts";
import type { Anchorage } from "../schema/rig.ts";
import { commonPoints, criticalPoints } from "./critical-points.ts";
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

  const ground = (position: readonly [number, number, number]): Anchorage => ({
    on: "ground",
    position: [...position],
    ratingN: null,
    ratingBasis: null,
    ratingSource: "",
  });
  const withBrakesOn = (a: Anchorage, b: Anchorage): Plan => {
    const { rig } = crossingExample;
    const mainLines = rig.mainLines.map((l, i) => ({ ...l, brake: { ...l.brake, anchorage: i === 0 ? a : b } }));
    return { ...crossingExample, rig: { ...rig, mainLines } };
  };
  const sharedAnchors = (plan: Plan): readonly CriticalPoint[] =>
    criticalPoints(plan, WHEN).filter((p) => p.kind === "anchor" && p.shared && !p.unavoidable);

  it("finds anchors that are one by how near they are, on whichever side of a round figure", () => {
    for (const y of [-3.006, -3.06, -3.19])
      expect(sharedAnchors(withBrakesOn(ground([2, -3.004, 0.3]), ground([2, y, 0.3]))), `${y}`).toMatchObject([
        { outcome: "falls", lines: ["main-a", "main-b"] },
      ]);
    expect(sharedAnchors(withBrakesOn(ground([2, -3.004, 0.3]), ground([2, -3.21, 0.3])))).toEqual([]);
  });

  it("finds a place on the ground at an eye of the vehicle, and one between two as both", () => {
    const eye = evaluate(crossingExample).geometry.anchors.find((a) => a.id === "right-low-2")?.at;
    if (!eye) throw new Error("no eye");
    const plan = withBrakesOn({ on: "vehicle", anchorId: "right-low-2" }, ground([eye[0] + 0.1, eye[1], eye[2]]));
    expect(sharedAnchors(plan)).toMatchObject([{ id: "anchor/right-low-2", outcome: "falls" }]);
    // Three in a row, each 0.15 m from the next: the redirect's place joins the two brakes.
    const [a, between, b] = [ground([2, -3, 0.3]), ground([2, -3.15, 0.3]), ground([2, -3.3, 0.3])];
    const { rig } = withBrakesOn(a, b);
    const mainLines = rig.mainLines.map((l, i) =>
      i === 0 ? l : { ...l, redirects: l.redirects.map((r) => (r.id === "jack" ? { ...r, anchorage: between } : r)) },
    );
    expect(sharedAnchors({ ...crossingExample, rig: { ...rig, mainLines } })).toMatchObject([{ outcome: "falls" }]);
  });

  it("tells apart what there is only one of on any rig, after the rest", () => {
    const falls = criticalPoints(withBrakesAt("right-low-2", "right-low-2"), WHEN).filter((p) => p.outcome === "falls");
    expect(falls.map((p) => p.unavoidable)).toEqual([false, true, true, true]);
    expect(byId(crossingExample, "everyone").shared).toBe(false);
  });

  it("lists what a tagline is made fast to, and takes with it what else hangs there", () => {
    const { rig } = crossingExample;
    const taglines = rig.taglines.map((t) => ({ ...t, drive: "length" as const, lengthM: 16 }));
    const fast: Plan = {
      ...crossingExample,
      evolution: { ...crossingExample.evolution, stages: [] },
      rig: { ...rig, taglines },
    };
    const found = criticalPoints(fast, null).find((p) => p.id === "anchor/ground.-1600.1060.110");
    expect(found).toMatchObject({ kind: "anchor", lines: ["tag-west"], result: { cut: ["tag-west"] } });
    const [main, ...others] = rig.mainLines;
    if (!main) throw new Error("no main line");
    const brake = { ...main.brake, anchorage: ground([-16, 10.7, 1.1]) };
    const both = { ...fast, rig: { ...fast.rig, mainLines: [{ ...main, brake }, ...others] } };
    expect(commonPoints(both)[0]?.points.find((p) => p.kind === "anchor")).toMatchObject({
      lines: ["main-a", "tag-west"],
      result: { cut: ["main-a", "tag-west"] },
    });
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
