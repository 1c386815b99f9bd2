import type { Outline, PlanPoint } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { evaluate } from "./evaluate.ts";
import { crossingExample } from "./examples/crossing.ts";
import { asReal } from "./fuzz/as-real.ts";
import { soundOutline } from "./place-geometry.ts";
import type { Plan } from "./schema/plan.ts";
import type { Structure } from "./schema/scene.ts";

/** An outline of many corners round a place, and how often one of its corners was asked for. */
function counted(corners: number, [x, y]: PlanPoint): { readonly outline: Outline; readonly looks: () => number } {
  let looks = 0;
  const ring = Array.from({ length: corners }, (_, i): PlanPoint => {
    const turn = (2 * Math.PI * i) / corners;
    return [x + 3 * Math.cos(turn), y + 3 * Math.sin(turn)];
  });
  const outline = new Proxy(ring, {
    get: (of, key) => {
      if (typeof key === "string" && /^\d+$/.test(key)) looks++;
      return Reflect.get(of, key);
    },
  });
  return { outline, looks: () => looks };
}

describe("whether an outline is sound", () => {
  it("is asked of its corners once, however often it is asked", () => {
    const { outline, looks } = counted(500, [0, 0]);
    expect(soundOutline(outline)).toBe(true);
    const once = looks();
    expect(soundOutline(outline)).toBe(true);
    expect(looks()).toBe(once);
  });

  it("is told for each outline by itself", () => {
    const square: Outline = [
      [0, 0],
      [2, 0],
      [2, 2],
      [0, 2],
    ];
    const [a, b, c, d] = square as [PlanPoint, PlanPoint, PlanPoint, PlanPoint];
    for (let i = 0; i < 2; i++) {
      expect(soundOutline(square)).toBe(true);
      expect(soundOutline([a, c, b, d])).toBe(false);
      expect(soundOutline([a, b])).toBe(false);
    }
  });
});

describe("a scene of many corners", () => {
  it("is not gone through anew for each position of the load", () => {
    const real = asReal(crossingExample);
    const [like] = real.scene.structures as [Structure];
    const rings = Array.from({ length: 30 }, (_, i) => counted(200, [60 + 10 * (i % 6), 60 + 10 * Math.floor(i / 6)]));
    const structures = rings.map(
      ({ outline }, i): Structure => ({ ...like, id: `ring-${i}`, outline: outline as never }),
    );
    const scene = { ...real.scene, structures: [...real.scene.structures, ...structures] };
    const at = (eastM: number): Plan => {
      const [x, y, z] = real.rig.load.positionM;
      return { ...real, scene, rig: { ...real.rig, load: { ...real.rig.load, positionM: [x + eastM, y, z] } } };
    };
    const looks = (): number => rings.reduce((sum, ring) => sum + ring.looks(), 0);
    evaluate(at(0));
    const first = looks();
    evaluate(at(0.1));
    expect(looks() - first).toBe(0);
    expect(first).toBeGreaterThan(30 * 200);
  });
});
