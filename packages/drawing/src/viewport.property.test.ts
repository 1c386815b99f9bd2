import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitViewport, panBy, screenToWorld, viewBounds, worldToScreen, zoomAt } from "./viewport.ts";

const SEED = 20261125;
const within = (low: number, high: number): fc.Arbitrary<number> => fc.double({ min: low, max: high, noNaN: true });
const viewport = fc.record({
  widthPx: within(50, 4000),
  heightPx: within(50, 4000),
  centre: fc.tuple(within(-500, 500), within(-500, 500)),
  pxPerM: within(0.5, 500),
});
const point = fc.tuple(within(0, 2000), within(0, 2000));

describe("viewport", () => {
  it("takes sheet to world and back to the same place", () => {
    fc.assert(
      fc.property(viewport, point, (view, [x, y]) => {
        const [sx, sy] = worldToScreen(view, screenToWorld(view, [x, y]));
        expect(sx).toBeCloseTo(x, 6);
        expect(sy).toBeCloseTo(y, 6);
      }),
      { seed: SEED },
    );
  });

  it("has up on the sheet where the world is higher", () => {
    const view = { widthPx: 100, heightPx: 100, centre: [0, 0], pxPerM: 10 } as const;
    expect(worldToScreen(view, [2, 3])).toEqual([70, 20]);
  });

  it("zooms about a point that keeps its place", () => {
    fc.assert(
      fc.property(viewport, point, within(0.5, 2), (view, at, factor) => {
        const before = screenToWorld(view, at);
        const [x, y] = worldToScreen(zoomAt(view, at, factor), before);
        expect(x).toBeCloseTo(at[0], 5);
        expect(y).toBeCloseTo(at[1], 5);
      }),
      { seed: SEED },
    );
  });

  it("pans what is drawn by the pixels asked for", () => {
    fc.assert(
      fc.property(viewport, point, point, (view, at, [dx, dy]) => {
        const [x, y] = worldToScreen(panBy(view, dx, dy), screenToWorld(view, at));
        expect(x - at[0]).toBeCloseTo(dx, 5);
        expect(y - at[1]).toBeCloseTo(dy, 5);
      }),
      { seed: SEED },
    );
  });

  it("fits bounds inside the margins, and touches two of them", () => {
    fc.assert(
      fc.property(
        within(-50, 50),
        within(-50, 50),
        within(1, 80),
        within(1, 80),
        within(0, 90),
        (x, y, w, h, margin) => {
          const bounds = { minX: x, minY: y, maxX: x + w, maxY: y + h };
          const view = fitViewport(bounds, 900, 700, { left: margin, right: 2 * margin, top: margin, bottom: margin });
          const [left, top] = worldToScreen(view, [bounds.minX, bounds.maxY]);
          const [right, bottom] = worldToScreen(view, [bounds.maxX, bounds.minY]);
          const room = [left - margin, 900 - 2 * margin - right, top - margin, 700 - margin - bottom];
          expect(Math.min(...room)).toBeGreaterThan(-1e-6);
          expect(Math.min(Math.max(room[0] ?? 1, room[1] ?? 1), Math.max(room[2] ?? 1, room[3] ?? 1))).toBeLessThan(
            1e-6,
          );
        },
      ),
      { seed: SEED },
    );
  });

  it("stays finite for bounds without size, margins without room and factors that are no factor", () => {
    const point0 = { minX: 3, minY: 3, maxX: 3, maxY: 3 };
    for (const view of [
      fitViewport(point0, 10, 10, 400),
      zoomAt(fitViewport(point0, 300, 300, 0), [1, 1], Number.NaN),
      zoomAt(fitViewport(point0, 300, 300, 0), [1, 1], 0),
    ]) {
      expect(Object.values(viewBounds(view)).every(Number.isFinite)).toBe(true);
      expect(view.pxPerM).toBeGreaterThan(0);
    }
  });
});
