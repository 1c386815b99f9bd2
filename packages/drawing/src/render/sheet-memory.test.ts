import { EXAMPLES, evaluate, type Plan } from "@gantline/plan";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { withOverlays } from "../overlays/with-overlays.ts";
import { drawPlan } from "../plan-view.ts";
import { drawSection } from "../section.ts";
import { isAlike } from "../shared/is-alike.ts";
import { svgTree } from "../to-svg.ts";
import { fitViewport } from "../viewport.ts";
import { SheetMemory } from "./sheet-memory.ts";

/** The plan with the ladder raised and turned a little, and the load moved. */
const moved = (plan: Plan, by: number): Plan => ({
  ...plan,
  aerial: { ...plan.aerial, pose: { ...plan.aerial.pose, elevationRad: plan.aerial.pose.elevationRad - by } },
});

describe("a drawing laid out with a memory of the last", () => {
  it.each(["section", "plan"] as const)("comes to the same as without, whatever it was before: %s", (view) => {
    for (const { plan } of EXAMPLES) {
      const memory = new SheetMemory();
      let kept = 0;
      let before: ReturnType<typeof svgTree> | null = null;
      const steps = [0, 0, 0.01, 0.02, 0, 0.03].map((by, k) => ({ by, width: k < 4 ? 700 : 420 }));
      for (const { by, width } of steps) {
        const then = moved(plan, by);
        const drawing = (view === "section" ? drawSection : drawPlan)(then, evaluate(then), { system: "metric" });
        const viewport = fitViewport(drawing.bounds, width, 800, 40);
        const dressed = withOverlays(drawing, viewport, { system: "metric" });
        const theme = by === 0.03 ? "night" : "day";
        const tree = svgTree(dressed, viewport, { theme }, memory);
        expect(tree).toEqual(svgTree(dressed, viewport, { theme }));
        const last = before?.children.at(-1)?.children ?? [];
        kept += (tree.children.at(-1)?.children ?? []).filter((child) => last.includes(child)).length;
        before = tree;
      }
      // Not only alike: taken again.
      expect(kept).toBeGreaterThan(20);
    }
  });
});

describe("plain data", () => {
  it("is alike exactly when it is written alike", () => {
    const data = fc.jsonValue({ maxDepth: 3 });
    fc.assert(
      fc.property(data, data, (a, b) => {
        expect(isAlike(a, structuredClone(a))).toBe(true);
        // JSON has no −0.
        const same = JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
        if (!same) expect(isAlike(a, b)).toBe(false);
      }),
      { numRuns: 500 },
    );
    expect(isAlike({ a: 1, b: undefined }, { a: 1 })).toBe(false);
    expect(isAlike([1, [2]], [1, [2, 3]])).toBe(false);
    expect(isAlike([1], { 0: 1 })).toBe(false);
    expect(isAlike({ a: Number.NaN }, { a: Number.NaN })).toBe(true);
  });
});

/** Fields in the order of their names, so that two objects that differ in order only are written alike. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  const fields = value as Record<string, unknown>;
  return Object.fromEntries(
    Object.keys(fields)
      .sort()
      .map((name) => [name, sorted(fields[name])]),
  );
}
