import { describe, expect, test } from "vitest";
import { beamAxes } from "../aerial/pose-aerial.ts";
import { addScaled, site } from "../base/vector.ts";
import { seededRandom } from "../numerics/seeded-random.ts";
import { clearance } from "../scene/clearance.ts";
import type { PlanPoint } from "../scene/outline.ts";
import { extrudedOutline, orientedBox, polyline } from "../scene/solids.ts";
import { boxToPrismSquared } from "./box-to-prism.ts";
import { emptyBox, segmentToBoxSquared, type TiltedBox } from "./tilted-box.ts";

/** The same box as a solid: u is north, v is east. */
function asSolid(box: TiltedBox) {
  const { axial, normal, lateral } = beamAxes(0, Math.atan2(box.sin, box.cos));
  const middle = [box.sMin + box.sMax, box.nMin + box.nMax, box.vMin + box.vMax].map((d) => d / 2);
  const along = addScaled(site(0, box.u0, box.z0), axial, middle[0] ?? 0);
  const centre = addScaled(addScaled(along, normal, middle[1] ?? 0), lateral, middle[2] ?? 0);
  return orientedBox(
    centre,
    [axial, lateral, normal],
    [(box.sMax - box.sMin) / 2, (box.vMax - box.vMin) / 2, (box.nMax - box.nMin) / 2],
  );
}

function randomBox(random: () => number): TiltedBox {
  const elevation = random() < 0.15 ? 0 : random() * 3 - 1;
  return {
    ...emptyBox(),
    u0: random() * 4 - 2,
    z0: random() * 4,
    cos: Math.cos(elevation),
    sin: Math.sin(elevation),
    sMin: -random(),
    sMax: random() * 8,
    vMin: -random(),
    vMax: random(),
    nMin: -random(),
    nMax: random(),
  };
}

describe("distances of a tilted box, against clearance() on the same solids", () => {
  test("to what stands over an outline, convex or not", () => {
    const random = seededRandom(1);
    let apart = 0;
    let meeting = 0;
    for (let n = 0; n < 4000; n++) {
      const box = randomBox(random);
      const corners = 3 + Math.floor(random() * 6);
      const [x, y] = [random() * 10 - 5, random() * 10 - 3];
      const outline = Array.from({ length: corners }, (_, i): PlanPoint => {
        const far = 0.2 + 4 * random();
        return [x + far * Math.cos((i * 6.28) / corners), y + far * Math.sin((i * 6.28) / corners)];
      });
      const bottom = random() * 8 - 4;
      const top = bottom + (random() < 0.1 ? 0 : random() * 4);
      const u = Float64Array.from(outline, (p) => p[1]);
      const v = Float64Array.from(outline, (p) => p[0]);
      const found = Math.sqrt(boxToPrismSquared(box, u, v, 0, corners, bottom, top, 1e9));
      const { distanceM } = clearance(asSolid(box), extrudedOutline(outline, bottom, top));
      expect(found, JSON.stringify({ n, box, outline, bottom, top })).toBeCloseTo(distanceM, 7);
      if (distanceM > 0) apart++;
      else meeting++;
    }
    expect(apart).toBeGreaterThan(1000);
    expect(meeting).toBeGreaterThan(400);
  });

  test("to a segment", () => {
    const random = seededRandom(2);
    const coordinate = (): number => random() * 12 - 4;
    for (let n = 0; n < 4000; n++) {
      const box = randomBox(random);
      const [a, b] = [0, 1].map(() => ({ u: coordinate(), v: coordinate(), z: coordinate() }));
      if (!a || !b) continue;
      if (n % 7 === 0) b.v = a.v;
      const found = Math.sqrt(segmentToBoxSquared(box, a.u, a.v, a.z, b.u, b.v, b.z, 1e9));
      const line = polyline([site(a.v, a.u, a.z), site(b.v, b.u, b.z)]);
      expect(found).toBeCloseTo(clearance(asSolid(box), line).distanceM, 7);
    }
  });

  test("tells no more than that it is beyond", () => {
    const box = { ...emptyBox(), sMax: 1, vMax: 1, nMax: 1 };
    expect(segmentToBoxSquared(box, 3, 0, 0, 3, 1, 0, 2)).toBe(2);
    expect(segmentToBoxSquared(box, 3, 0, 0, 3, 1, 0, 5)).toBe(4);
  });
});
