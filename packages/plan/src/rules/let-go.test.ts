import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { commonPoints } from "../let-go/critical-points.ts";
import { letGoEvolution } from "../let-go/let-go-evolution.ts";
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
