import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 as G } from "../../base/constants.ts";
import { asSite, dot, subtract, unit } from "../../base/vector.ts";
import { exampleLetGo } from "../testing/example-let-go.ts";
import { letGo } from "./let-go.ts";
import type { LetGo, LetGoOptions, LetGoSystem } from "./let-go-types.ts";

function followed(system: LetGoSystem, cut: string | readonly string[], options: LetGoOptions = {}): LetGo {
  const found = letGo(system, cut, options);
  if (!found.ok) throw new Error(`${found.code} at ${found.where}: ${found.hint}`);
  return found;
}

/** A load on a tether from a pulley that runs on a rope between two level places, 2c apart on 2a of rope. */
function hung(aM: number, cM: number, tetherM: number, of: Partial<LetGoSystem["nodes"][string]> = {}): LetGoSystem {
  const deepM = Math.sqrt(aM ** 2 - cM ** 2);
  return {
    nodes: {
      left: { positionM: [-cM, 0, 0] },
      right: { positionM: [cM, 0, 0] },
      rider: { positionM: [0, 0, -deepM], rides: true },
      load: { positionM: [0, 0, -deepM - tetherM], massKg: 100, ...of },
    },
    lines: {
      rope: { through: ["left", "rider", "right"], axialStiffnessN: 5e6, startTensionN: (50 * G * aM) / deepM },
      tether: { through: ["load", "rider"], axialStiffnessN: 5e6, startTensionN: 100 * G },
    },
    load: "load",
  };
}

describe("a pulley without mass that rides a rope", () => {
  it("runs on an ellipse about the rope's ends: what hangs from it swings as on the circle that fits its lowest place", () => {
    // Radius of curvature at the end of an ellipse's minor axis, a²/b (textbook); the load's way is parallel to it.
    for (const [a, c, tetherM] of [
      [5, 3, 2],
      [5, 4, 0.5],
    ] as const) {
      const radiusM = a ** 2 / Math.sqrt(a ** 2 - c ** 2) + tetherM;
      const speedMS = 0.02;
      const found = followed(hung(a, c, tetherM, { velocityMS: [speedMS, 0, 0] }), [], {
        durationS: 4,
        tolerance: 1e-8,
      });
      expect(found.load.swingM / (speedMS * Math.sqrt(radiusM / G))).toBeCloseTo(1, 3);
      expect(found.energy.closureShare).toBeLessThan(1e-3);
    }
  });

  it("across the rope swings about the line through the rope's ends", () => {
    // A pendulum from the level line through both ends: its length is that of the load below it (textbook).
    const speedMS = 0.02;
    const found = followed(hung(5, 3, 2, { velocityMS: [0, speedMS, 0] }), [], { durationS: 4, tolerance: 1e-8 });
    expect(found.load.swingM / (speedMS * Math.sqrt(6 / G))).toBeCloseTo(1, 3);
  });

  it("is at all times where the rope makes equal angles with the tether, on both sides of it", () => {
    const system = hung(5, 3, 2, { velocityMS: [3, 1, 0] });
    const { places } = followed(system, [], { durationS: 5, tolerance: 1e-7 }).motion;
    const [left, right] = ["left", "right"].map((n) => asSite(system.nodes[n]!.positionM)) as [
      ReturnType<typeof asSite>,
      ReturnType<typeof asSite>,
    ];
    for (const [i, rider] of places.rider!.entries()) {
      const down = unit(subtract(places.load![i]!, rider));
      const cos = [left, right].map((end) => dot(unit(subtract(end, rider)), down));
      expect(cos[0]).toBeCloseTo(cos[1]!, 5);
    }
    expect(Math.max(...places.rider!.map((p) => Math.abs(p[0])))).toBeGreaterThan(1);
  });

  it("is what a pulley of little mass comes to: the survivor's peak and the drop of a ladder rig", () => {
    const base = exampleLetGo({ tether: true });
    const { positionM } = base.nodes.rider!;
    const withRider = (of: { massKg: number } | { rides: true }): LetGoSystem => ({
      ...base,
      nodes: { ...base.nodes, rider: { positionM, ...of } },
    });
    const options = { durationS: 3, tolerance: 1e-6 };
    const none = followed(withRider({ rides: true }), "right", options);
    for (const massKg of [2, 0.5, 0.1]) {
      const some = followed(withRider({ massKg }), "right", options);
      const within = massKg === 2 ? 0.02 : 0.01;
      expect(Math.abs(some.lines.left!.peakN / none.lines.left!.peakN - 1)).toBeLessThan(within);
      expect(Math.abs(some.load.dropM / none.load.dropM - 1)).toBeLessThan(within);
    }
  });

  it("closes its book with losses, brakes and damping", () => {
    for (const of of [
      { efficiency: 0.9 },
      { efficiency: 0.9, dampingNsM: 60 },
      { efficiency: 0.93, slipsAtN: 2200, dampingNsM: 20 },
    ]) {
      const system = exampleLetGo({ ...of, tether: true });
      const { massKg: _, ...rider } = system.nodes.rider!;
      for (const cut of ["right", "tag"]) {
        const found = followed({ ...system, nodes: { ...system.nodes, rider: { ...rider, rides: true } } }, cut, {
          durationS: 6,
        });
        expect(found.energy.closureShare).toBeLessThan(1e-3);
      }
    }
  });

  it("with nothing that pulls it lets its rope run straight", () => {
    const system = hung(5, 3, 2);
    const lines = { ...system.lines, hold: { through: ["load", "top"], axialStiffnessN: 5e4, startTensionN: 0 } };
    const nodes = { ...system.nodes, top: { positionM: [0, 0, 4] as const } };
    const found = followed({ ...system, nodes, lines }, "tether", { durationS: 6 });
    expect(found.lines.rope!.peakN).toBeLessThan(1);
    expect(found.lines.hold!.peakN).toBeGreaterThan(100 * G);
  });

  it("is refused with a mass, with a loss, without a rope to ride on, and beside another", () => {
    const system = hung(5, 3, 2);
    const node = (name: string, of: object): LetGoSystem => ({
      ...system,
      nodes: { ...system.nodes, [name]: { ...system.nodes[name]!, ...of } },
    });
    const bad = (of: LetGoSystem, cut: string | readonly string[] = []) => {
      const found = letGo(of, cut);
      return found.ok ? "" : found.where;
    };
    expect(bad(node("rider", { massKg: 1 }))).toBe("nodes.rider.massKg");
    expect(bad(system, "rope")).toBe("nodes.rider.rides");
    expect(bad(node("left", { rides: true }))).toBe("nodes.rider.rides");
    const lossy = { ...system.lines, rope: { ...system.lines.rope!, efficiency: [0.9] } };
    expect(bad({ ...system, lines: lossy })).toBe("lines.rope.efficiency[0]");
  });
});
