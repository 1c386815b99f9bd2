import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { evaluateAt } from "./evaluate-at.ts";
import { evolve } from "./evolve.ts";

describe("curves of the evolution", () => {
  const crossing = evolve(crossingExample);
  const roof = evolve(roofExample);
  const [stage, first] = [3, crossing.stages[3]?.moments[0] ?? 0];
  const one = evaluateAt(crossingExample, { stage, along: 0 });
  const at = (e: typeof crossing, id: string, i: number) => e.series.find((s) => s.id === id)?.values[i] ?? Number.NaN;

  it("tell each rigging point in the ladder's axes, with its sign, as large as in either travel", () => {
    for (const pointId of ["tip-left", "tip-right"]) {
      const points = one.cases.flatMap((c) => one.felt[c]?.points.filter((p) => p.pointId === pointId) ?? []);
      expect(points).toHaveLength(2);
      for (const [id, part] of [
        ["compression", "compressionN"],
        ["normal", "normalN"],
        ["lateral", "lateralN"],
      ] as const) {
        const largest = points.map((p) => p[part]).sort((a, b) => Math.abs(b) - Math.abs(a))[0];
        expect(at(crossing, `force/point/${pointId}/${id}`, first)).toBeCloseTo(largest ?? Number.NaN, 9);
      }
    }
  });

  it("tell what each anchor is pulled by, as the ledger has it", () => {
    for (const [id, check] of [
      ["force/anchor/main-a/base", "component-strength/main-a/base.anchor"],
      ["force/anchor/main-b/jack", "component-strength/main-b/jack.anchor"],
      ["force/anchor/main-b/brake", "component-strength/main-b/brake.anchor"],
    ] as const) {
      const demand = one.ledger.find((c) => c.id === check)?.demand?.value ?? Number.NaN;
      expect(at(crossing, id, first)).toBeCloseTo(demand, 9);
    }
  });

  it("tell how steep a tagline is, and how much of the tether's pull runs along the ladder", () => {
    const [x, y, z] = one.load.yoke;
    const [hx, hy, hz] = crossingExample.rig.taglines[0]?.handler ?? [0, 0, 0];
    const steep = Math.atan2(z - hz, Math.hypot(x - hx, y - hy));
    expect(at(crossing, "angle/tag-west", first)).toBeCloseTo(steep, 9);
    const beside = roof.stages[2]?.moments[1] ?? 0;
    const there = evaluateAt(roofExample, { stage: 2, along: 1 }).tether;
    expect(at(roof, "force/tether-along", beside)).toBeCloseTo(there?.alongLadderN ?? Number.NaN, 6);
  });

  it("do not let what is the same at every moment decide which is worst", () => {
    expect(roof.ledger.some((c) => c.id === "rope-length/tether")).toBe(true);
    expect(roof.moments.map((m) => m.worst.checkId)).not.toContain("rope-length/tether");
  });

  it.each([
    ["crossing", crossing],
    ["roof", roof],
  ])("of %s are at two hundred moments or more", (_, e) => expect(e.moments.length).toBeGreaterThanOrEqual(200));
});
