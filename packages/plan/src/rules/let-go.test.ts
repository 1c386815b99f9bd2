import { STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { commonPoints } from "../let-go/critical-points.ts";
import { letGoAt } from "../let-go/let-go-at.ts";
import { letGoEvolution } from "../let-go/let-go-evolution.ts";
import type { LetGoCase, LetGoFigures } from "../let-go/let-go-plan-types.ts";
import { pointLimitN } from "../let-go/point-limit.ts";
import { plumbPlan, withGear } from "../let-go/testing/plumb-plan.ts";
import type { Plan } from "../schema/plan.ts";
import type { Anchorage } from "../schema/rig.ts";
import { letGoChecks } from "./let-go.ts";

const known = withGear(crossingExample, "brake-g", { slipN: 8000 });

describe("the ledger of what lets go: what takes several lines with it", () => {
  const statusOf = (plan: Plan, id: string) =>
    letGoChecks(plan, [], commonPoints(plan)).find((c) => c.id === id)?.status;
  const withBrakesOn = (plan: Plan, anchorage: Anchorage): Plan => ({
    ...plan,
    rig: { ...plan.rig, mainLines: plan.rig.mainLines.map((l) => ({ ...l, brake: { ...l.brake, anchorage } })) },
  });
  const eye: Anchorage = { on: "vehicle", anchorId: "right-low-2" };

  it("one anchor under both brakes is over, and that nobody need hold is within", () => {
    const plan = withBrakesOn(known, eye);
    expect(statusOf(plan, "let-go/shared/anchor/right-low-2")).toBe("over");
    expect(statusOf(plan, "let-go/hands-off")).toBe("within");
  });

  it("yoke, bridle, litter and ladder, of which there is one on any rig, are not among them", () => {
    expect(letGoChecks(known, [], commonPoints(known)).filter((c) => c.status === "over")).toEqual([]);
    expect(letGoChecks(known, [], commonPoints(known)).filter((c) => c.id.startsWith("let-go/shared"))).toEqual([]);
  });

  it("one rigging point under both lines is over", () => {
    expect(statusOf(plumbPlan({ slipN: 8000 }), "let-go/shared/point/tip-left")).toBe("over");
  });

  it("a redirect's anchor under both is unknown while a brake is only taken to hold fast", () => {
    const shared = (plan: Plan): Plan => ({
      ...plan,
      rig: {
        ...plan.rig,
        mainLines: plan.rig.mainLines.map((l) => ({
          ...l,
          redirects: l.redirects.map((r) =>
            r.id === "jack" ? { ...r, anchorage: { on: "vehicle" as const, anchorId: "jack-rear-right" } } : r,
          ),
        })),
      },
    });
    const point = (plan: Plan) =>
      commonPoints(plan)
        .flatMap(({ points }) => points)
        .find((p) => p.id === "anchor/jack-rear-right");
    const id = "let-go/shared/anchor/jack-rear-right";
    // Both ropes run slack: the load comes down before they hold, or is caught at a peak that is judged.
    expect(statusOf(shared(known), id)).toBe(point(shared(known))?.outcome === "falls" ? "over" : "within");
    expect(statusOf(shared(crossingExample), id)).not.toBe("within");
  });

  it("hands off: over where no brake holds by itself, unknown where that is not known", () => {
    expect(statusOf(withGear(known, "brake-g", { holdsHandsOff: false }), "let-go/hands-off")).toBe("over");
    expect(statusOf(withGear(known, "brake-g", { holdsHandsOff: null }), "let-go/hands-off")).toBe("unknown");
  });

  it("stand in the ledger of the whole evolution, each with its moment", () => {
    const { stages } = known.evolution;
    const plan = withBrakesOn({ ...known, evolution: { ...known.evolution, stages: stages.slice(0, 2) } }, eye);
    const ledger = letGoEvolution(plan)?.ledger ?? [];
    expect(ledger.find((c) => c.id === "let-go/shared/anchor/right-low-2")).toMatchObject({
      status: "over",
      counts: true,
      when: { stage: 1 },
    });
    expect(ledger.find((c) => c.id === "let-go/hands-off")?.status).toBe("within");
  });
});

describe("the ledger of what lets go: everything that gets more than at rest", () => {
  const plumb = plumbPlan({ slipN: 8000 });
  const gone = letGoAt(plumb, null, "main-a");
  const checkOf = (plan: Plan, one: LetGoCase, id: string) => letGoChecks(plan, [one]).find((c) => c.id === id);
  const changed = (one: LetGoCase, change: Partial<LetGoFigures>): LetGoCase => {
    if (one.figures === null) throw new Error("no figures");
    return { ...one, figures: { ...one.figures, ...change } };
  };
  const withDevice = (plan: Plan, change: Partial<Plan["aerial"]["device"]>): Plan => ({
    ...plan,
    aerial: { ...plan.aerial, device: { ...plan.aerial.device, ...change } },
  });
  const slipUnknown = (one: LetGoCase): LetGoCase => ({ ...one, slipUnknown: ["main-b"] });

  it("shows what holds at the worst of its moments, though it holds at all of them", () => {
    const cases = [
      { stage: 1, along: 0 },
      { stage: 3, along: 0.5 },
      { stage: 1, along: 1 },
    ].map((when) => letGoAt(known, when, "main-a"));
    expect(cases.map((one) => one.outcome)).toEqual(["held", "held", "held"]);
    const holds = letGoChecks(known, cases).find((c) => c.id === "let-go/holds/main-a");
    expect(holds).toMatchObject({ status: "within", when: { stage: 3, along: 0.5 } });
  });

  it("has the limit of a rigging point for curves as its check has it", () => {
    const check = checkOf(plumb, gone, "let-go/point/tip-left");
    expect(pointLimitN(plumb, "tip-left")).toBe(check?.limit?.value);
    expect(pointLimitN(plumb, "no such point")).toBeNull();
  });

  it("says of everyone that they let go, and of all else that it is gone", () => {
    const open = withGear(crossingExample, "brake-g", { slipN: 8000, holdsHandsOff: true });
    const says = letGoChecks(open, [], commonPoints(open)).map((c) => JSON.stringify(c.says));
    expect(says.some((s) => s.includes("Everyone lets go at once: "))).toBe(true);
    expect(says.join()).not.toContain("at once gone");
    expect(JSON.stringify(checkOf(plumb, gone, "let-go/tip")?.says)).toContain("Main A gone: ");
  });

  it("judges bending and compression at the peak, and counts compression where the plan's basis is all three", () => {
    const all: Plan = { ...plumb, policy: { ...plumb.policy, tipBasis: "all" } };
    for (const kind of ["bending", "compression"] as const) {
      const used = gone.figures?.utilisations[kind];
      expect(checkOf(plumb, gone, `let-go/tip/${kind}`)).toMatchObject({
        counts: kind === "bending",
        ratio: used?.ratio,
      });
      expect(checkOf(all, gone, `let-go/tip/${kind}`)?.counts).toBe(true);
      expect(checkOf(all, slipUnknown(gone), `let-go/tip/${kind}`)?.status).toBe("unknown");
      const tight = { ...all, policy: { ...all.policy, peakRatingFactor: { value: 1000, source: "" } } };
      expect(checkOf(tight, gone, `let-go/tip/${kind}`)?.status).toBe("over");
    }
  });

  it("holds the side load against the maker's rating, and only shows the angle where there is none", () => {
    const one = letGoAt(known, { stage: 3, along: 0.1 }, "main-a");
    const lateralN = Math.abs(one.figures?.tipInBeam.lateralN ?? 0);
    expect(lateralN).toBeGreaterThan(50);
    const rated = (sideRatingN: number) => withDevice(known, { sideRatingN, sideRatingSource: "a plate" });
    expect(checkOf(rated(2 * lateralN), one, "let-go/side")).toMatchObject({ status: "within", counts: true });
    expect(checkOf(rated(0.9 * lateralN), one, "let-go/side")).toMatchObject({ status: "over", counts: true });
    expect(checkOf(known, one, "let-go/side")).toMatchObject({ counts: false, demand: { quantity: "angle" } });
    const unset = { ...known, policy: { ...known.policy, offPlaneMaxRad: { value: null, source: "" } } };
    expect(checkOf(unset, one, "let-go/side")?.status).toBe("unknown");
  });

  it("gives parts the peaks of their ropes: the yoke W(2 − s), the brake's anchor the rope's end", () => {
    const { partsN = {}, lines = [], points = [] } = gone.figures ?? {};
    const weightN = 120 * STANDARD_GRAVITY_MS2;
    // Reference page on mechanics, one-rope failure: a survivor with half of the load gets 1.5 W; nothing else is on the yoke.
    expect((partsN["load/yoke"] ?? 0) / weightN).toBeCloseTo(1.5, 3);
    // Four legs: two are counted, at their slope of 1 in 0.75; reference page on bridles, W ÷ (n sin α).
    expect((partsN["load/bridle.leg"] ?? 0) / weightN).toBeCloseTo(1.5 / (2 * (1 / 1.25)), 3);
    expect(partsN["main-b/brake.anchor"]).toBe(lines[0]?.segmentsN.at(-1));
    expect((partsN["main-b/tip.sling"] ?? 0) / (points[0]?.peakN.high ?? 1)).toBeCloseTo(1, 2);
    expect(Object.keys(partsN).filter((id) => id.startsWith("main-a"))).toEqual([]);
  });

  it("judges what a redirect is made fast to by the rope's peaks, which it holds at rest and not when a line goes", () => {
    const when = { stage: 3, along: 0.5 };
    const ratingN = 1500;
    const mainLines = known.rig.mainLines.map((l) => ({
      ...l,
      redirects: l.redirects.map((r, i) => {
        const at = { position: [0.9, -0.4, 1.2] as [number, number, number], ratingN, ratingSource: "a test" };
        return i > 0 ? r : { ...r, anchorage: { on: "ground" as const, ratingBasis: "working" as const, ...at } };
      }),
    }));
    const plan: Plan = { ...known, rig: { ...known.rig, mainLines } };
    const one = letGoAt(plan, when, "main-a");
    const found = checkOf(plan, one, "let-go/parts/main-b");
    expect(found).toMatchObject({ status: "over", counts: true, limit: { value: ratingN } });
    expect(JSON.stringify(found?.says)).toContain("anchor");
    expect(checkOf(plan, slipUnknown(one), "let-go/parts/main-b")?.status).toBe("unknown");
  });

  it("parts: within, close, over by the factor, and unknown where a strength is not known", () => {
    const id = "let-go/parts/main-b";
    const ratio = checkOf(plumb, gone, id)?.ratio ?? 0;
    expect(checkOf(plumb, gone, id)?.status).toBe("within");
    const by = (factor: number): Plan => ({
      ...plumb,
      policy: {
        ...plumb.policy,
        peakStrengthFactor: { value: 2 * factor, source: "" },
        peakRatingFactor: { value: factor, source: "" },
      },
    });
    expect(checkOf(by(0.95 / ratio), gone, id)?.status).toBe("close");
    expect(checkOf(by(1.05 / ratio), gone, id)?.status).toBe("over");
    const unknown = withGear(plumb, "sheave-large", { strengthN: null });
    expect(checkOf(unknown, gone, id)?.status).toBe("unknown");
    expect(JSON.stringify(checkOf(unknown, gone, id)?.says)).toContain("sheave");
  });

  it("a rope pulled out of hands is over, whatever the policy counts as close", () => {
    const one = letGoAt(known, { stage: 4, along: 0.57 }, "main-b");
    const east = one.figures?.lines.find((l) => l.lineId === "tag-east");
    // Two people at 222 N each, the policy's pull.
    expect(east).toMatchObject({ letGo: true, handsHoldN: 444 });
    expect(checkOf(known, one, "let-go/hands/tag-east")).toMatchObject({ status: "over", counts: true });
    expect(checkOf(known, slipUnknown(one), "let-go/hands/tag-east")?.status).toBe("unknown");
    const lines = (one.figures?.lines ?? []).map((l) => ({
      ...l,
      letGo: false,
      atEndN: { low: 100, entered: 150, high: 200 },
    }));
    expect(checkOf(known, changed(one, { lines }), "let-go/hands/tag-east")).toMatchObject({ status: "within" });
  });

  it("judges how hard the load meets a wall, and says of the ladder that it is not known", () => {
    const hit = (speedMS: number): LetGoCase =>
      changed(gone, { hits: [{ what: "Wall", speedMS, bandMS: { low: 0, entered: 0, high: speedMS }, atS: 1 }] });
    const id = "let-go/contact";
    expect(checkOf(plumb, gone, id)).toMatchObject({ status: "within", demand: { value: 0 } });
    expect(checkOf(plumb, hit(1), id)).toMatchObject({ status: "within", ratio: 0.5 });
    expect(checkOf(plumb, hit(1.9), id)?.status).toBe("close");
    expect(checkOf(plumb, hit(2.2), id)).toMatchObject({ status: "over", counts: true });
    expect(checkOf(plumb, slipUnknown(hit(1)), id)?.status).toBe("unknown");
    const nearest = [{ what: "ladder", distanceM: 0, bandM: { low: 0, entered: 0, high: 0 }, atS: 1, yoke: gone.yoke }];
    expect(checkOf(plumb, changed(gone, { nearest }), id)?.status).toBe("unknown");
  });

  it("shows how near the load comes beside what is wanted at work, without counting it", () => {
    const near = (distanceM: number): LetGoCase =>
      changed(gone, {
        nearest: [{ what: "Wall", distanceM, bandM: { low: distanceM, entered: 3, high: 4 }, atS: 1, yoke: gone.yoke }],
      });
    const id = "let-go/clearance/Wall";
    expect(checkOf(plumb, near(1), id)).toMatchObject({ status: "within", counts: false });
    expect(checkOf(plumb, near(0.2), id)).toMatchObject({ status: "over", counts: false });
    const unset = { ...plumb, policy: { ...plumb.policy, loadClearanceM: { value: null, source: "" } } };
    expect(checkOf(unset, near(1), id)?.status).toBe("unknown");
    expect(checkOf(plumb, slipUnknown(near(1)), id)?.status).toBe("unknown");
  });
});
