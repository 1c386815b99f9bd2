import { letGo, type StopBody } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { assess } from "../assess.ts";
import { momentPlan } from "../evolve/moment-plan.ts";
import { roofExample } from "../examples/roof.ts";
import { floorOf, type LoadBox, loadStops, structureOfStop } from "./load-stops.ts";
import { plumbPlan } from "./testing/plumb-plan.ts";

const store = roofExample.scene.structures[0];
if (!store) throw new Error("no structure");
const situation = assess(momentPlan(roofExample, { stage: 2, along: 0 }));
const HALF = [0.5, 0.5, 0.5] as const;
const boxAt = (x: number, y: number, z: number): LoadBox => ({ middle: [x, y, z], half: HALF });

/** Follows a box that is thrown among the stops of the example, without ropes; m, m/s. */
function thrown(from: LoadBox, velocityMS: readonly [number, number, number], durationS: number) {
  const found = letGo(
    {
      nodes: { yoke: { positionM: from.middle, massKg: 100, velocityMS, halfSizeM: HALF } },
      lines: {},
      load: "yoke",
      stops: loadStops(situation, from, "yoke"),
    },
    [],
    { durationS, tolerance: 1e-8 },
  );
  if (!found.ok) throw new Error(found.hint);
  return found;
}

const xs = store.outline.map(([x]) => x);
const ys = store.outline.map(([, y]) => y);
const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
const [midX, midY] = [(west + east) / 2, (south + north) / 2];
const { topZM, parapetHeightM, parapetThicknessM } = store;

describe("what bars the way", () => {
  it("is the ground, and each structure by its body and its parapets, under the node's name", () => {
    const stops = loadStops(situation, boxAt(midX, south - 3, 4), "yoke");
    const own = Object.keys(stops).filter((name) => structureOfStop(name) === store.id);
    expect(Object.keys(stops)).toContain(floorOf("yoke"));
    expect(structureOfStop(floorOf("yoke"))).toBeNull();
    expect(own).toHaveLength(1 + store.outline.length);
    for (const name of own) expect((stops[name] as StopBody).planes.length).toBeGreaterThanOrEqual(6);
  });

  it("leaves out what the box starts in, but not what it stands on", () => {
    const within = loadStops(situation, boxAt(midX, midY, topZM / 2), "yoke");
    expect(Object.keys(within).filter((name) => name.endsWith(`${store.id}/0`))).toEqual([]);
    const on = loadStops(situation, boxAt(midX, midY, topZM + 0.48), "yoke");
    expect(Object.keys(on).filter((name) => name.endsWith(`${store.id}/0`))).toHaveLength(1);
  });

  // By hand: free fall and throw without air, g as standard; the box's sides are half a metre from its middle.
  it("stops a box thrown at a wall at the wall, and lets it fall along it", () => {
    const found = thrown(boxAt(midX, south - 3, 6), [0, 5, 0], 0.9);
    expect(found.touches[0]?.atS).toBeCloseTo(2.5 / 5, 6);
    expect(found.touches[0]?.speedMS).toBeCloseTo(5, 6);
    expect(found.load.last[1]).toBeCloseTo(south - 0.5, 6);
    expect(found.load.last[2]).toBeCloseTo(6 - 0.5 * 9.80665 * 0.81, 5);
  });

  it("catches a box above the roof on the roof, and one that comes in over the parapet's top on that", () => {
    const dropped = thrown(boxAt(midX, midY, topZM + 2.5), [0, 0, 0], 1.5);
    expect(dropped.touches[0]?.speedMS).toBeCloseTo(Math.sqrt(2 * 9.80665 * 2), 5);
    expect(dropped.touches[0]?.away[2]).toBe(1);
    expect(dropped.load.last[2]).toBeCloseTo(topZM + 0.5, 6);
    const rim = south + parapetThicknessM / 2;
    const onRim = thrown(boxAt(midX, rim, topZM + parapetHeightM + 1), [0, 0, 0], 1);
    expect(onRim.load.last[2]).toBeCloseTo(topZM + parapetHeightM + 0.5, 6);
  });

  it("stops a box on the roof at the parapet from within", () => {
    const found = thrown(boxAt(midX, midY, topZM + 0.5), [0, 4, 0], 5);
    expect(found.load.last[1]).toBeCloseTo(north - parapetThicknessM - 0.5, 5);
    expect(found.load.last[2]).toBeCloseTo(topZM + 0.5, 6);
  });

  it("lets a box fall past the wall's end, where there is no wall", () => {
    const found = thrown(boxAt(east + 0.51, south - 2, 6), [0, 5, 0], 0.9);
    expect(found.touches.filter((t) => structureOfStop(t.stop) !== null)).toEqual([]);
    expect(found.load.last[1]).toBeCloseTo(south - 2 + 4.5, 5);
  });

  it("is raised as a whole", () => {
    const plan = assess(plumbPlan());
    const [low, high] = [0, 1.5].map((by) => loadStops(plan, boxAt(0, 0, 8), "yoke", by)[floorOf("yoke")]);
    if (!low || !high || !("pointM" in low && "pointM" in high)) throw new Error("no ground");
    expect(high.pointM[2] - low.pointM[2]).toBe(1.5);
  });
});
