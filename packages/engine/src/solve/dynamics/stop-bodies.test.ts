import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 as G } from "../../base/constants.ts";
import { letGo } from "./let-go.ts";
import type { LetGo, LetGoNode, LetGoSystem, Stop, StopPlane } from "./let-go-types.ts";

/** An upright block: west, east, south, north, foot, top. */
const block = ([w, e, s, n, f, t]: readonly [number, number, number, number, number, number]): Stop => ({
  planes: [
    { pointM: [w, s, t], normal: [0, 0, 1] },
    { pointM: [w, s, f], normal: [0, 0, -1] },
    { pointM: [w, s, t], normal: [-1, 0, 0] },
    { pointM: [e, s, t], normal: [2, 0, 0] },
    { pointM: [w, s, t], normal: [0, -1, 0] },
    { pointM: [w, n, t], normal: [0, 1, 0] },
    // The same side twice is one side.
    { pointM: [e, n, t], normal: [1, 0, 0] },
  ],
});

function thrown(
  load: LetGoNode,
  stops: Record<string, Stop>,
  durationS: number,
  more: Partial<LetGoSystem> = {},
): LetGo {
  const found = letGo(
    { lines: {}, load: "load", ...more, nodes: { load: { massKg: 50, ...load }, ...more.nodes }, stops },
    [],
    { tolerance: 1e-8, durationS },
  );
  if (!found.ok) throw new Error(found.hint);
  expect(found.energy.closureShare).toBeLessThan(1e-6);
  return found;
}

// By hand throughout: a throw without air, and no friction on what is slid along.
describe("a body that bars the way", () => {
  const half = [0.5, 0.5, 0.5] as const;

  it("is slid along without friction and fallen off at its edge", () => {
    const table = block([-5, 3, -5, 5, 0, 10]);
    const found = thrown({ positionM: [0, 0, 10.5], velocityMS: [2, 0, 0], halfSizeM: half }, { table }, 2.25);
    // The box's hind side leaves the edge after 3.5 m at 2 m/s; then it falls for half a second.
    expect(found.load.last[0]).toBeCloseTo(4.5, 6);
    expect(found.load.last[2]).toBeCloseTo(10.5 - 0.5 * G * 0.5 ** 2, 6);
  });

  it("is hit through the side that is come to, its corners being those of an upright box", () => {
    const tower = block([-1, 1, -1, 1, 0, 10]);
    const found = thrown({ positionM: [-6, 0.2, 8], velocityMS: [9, 0, 0], halfSizeM: half }, { tower }, 1);
    expect(found.touches[0]).toMatchObject({ stop: "tower", away: [-1, 0, 0] });
    expect(found.touches[0]!.atS).toBeCloseTo(4.5 / 9, 7);
    expect(found.load.last[0]).toBeCloseTo(-1.5, 7);
    const past = thrown({ positionM: [-6, 1.51, 8], velocityMS: [9, 0, 0], halfSizeM: half }, { tower }, 1);
    expect(past.touches).toEqual([]);
  });

  it("turned on plan, is met at its corner only with the planes to the four winds", () => {
    const sides: readonly StopPlane[] = [
      { pointM: [0, 0, 9], normal: [0, 0, 1] },
      { pointM: [0, 0, 0], normal: [0, 0, -1] },
      ...[-1, 1].flatMap((x) => [-1, 1].map((y): StopPlane => ({ pointM: [x, 0, 9], normal: [x, y, 0] }))),
    ];
    const winds = [-1, 1].flatMap((s): StopPlane[] => [
      { pointM: [s, 0, 9], normal: [s, 0, 0] },
      { pointM: [0, s, 9], normal: [0, s, 0] },
    ]);
    const load = { positionM: [0.2, -5, 6], velocityMS: [0, 8, 0], halfSizeM: half } as const;
    const found = thrown(load, { diamond: { planes: [...sides, ...winds] } }, 0.6);
    expect(found.touches[0]!.atS).toBeCloseTo(3.5 / 8, 7);
  });

  it("and another are hit at one moment, and no more energy is lost than there is", () => {
    const low = block([1, 9, -5, 5, 0, 6]);
    const high = block([1, 1.4, -5, 5, 6, 9]);
    const found = thrown(
      { positionM: [-3, 0, 7], velocityMS: [6, 0, 0], halfSizeM: [0.5, 0.5, 2] },
      { low, high },
      0.7,
    );
    expect(found.touches).toHaveLength(1);
    expect(found.energy.hitsJ).toBeCloseTo(0.5 * 50 * 36, 6);
  });

  it("is left again where the way out leads, and bars no deeper where it began within", () => {
    const sunk = block([-5, 5, -5, 5, 0, 10]);
    const found = thrown({ positionM: [0, 0, 10.47], halfSizeM: half }, { sunk }, 1);
    expect(found.load.last[2]).toBe(10.47);
    const up = thrown({ positionM: [0, 0, 10.47], velocityMS: [0, 0, 3], halfSizeM: half }, { sunk }, 1);
    expect(up.load.last[2]).toBeCloseTo(10.47, 7);
    expect(up.touches.at(-1)!.speedMS).toBeCloseTo(3, 6);
  });

  it("has no inner sides: over a joint a box slides on", () => {
    const [west, east] = [block([-9, 0, -5, 5, 0, 10]), block([0, 9, -5, 5, 0, 10])].map((stop, i) => ({
      ...stop,
      planes: ("planes" in stop ? stop.planes : []).map((p) => ({
        ...p,
        inner: p.normal[0] !== 0 && p.pointM[0] === 0 && i >= 0,
      })),
    }));
    const found = thrown(
      { positionM: [-4, 0, 10.5], velocityMS: [4, 0, 0], halfSizeM: half },
      { west: west!, east: east! },
      2,
    );
    expect(found.load.last[0]).toBeCloseTo(4, 6);
    expect(found.load.last[2]).toBeCloseTo(10.5, 7);
  });

  it("bars only the nodes it is for", () => {
    const floor = { pointM: [0, 0, 4], normal: [0, 0, 1], nodes: ["other"] } as const;
    const other: LetGoNode = { positionM: [3, 0, 5], massKg: 1 };
    const found = thrown({ positionM: [0, 0, 5] }, { floor }, 0.6, { nodes: { other } });
    expect(found.touches.map((t) => t.node)).toEqual(["other"]);
    expect(found.load.last[2]).toBeCloseTo(5 - 0.5 * G * 0.36, 7);
    expect(found.approaches).toEqual({});
  });

  it("is refused without a plane, without an outer side, or for a node that is not there", () => {
    const asked = (stop: Stop) =>
      letGo({ nodes: { load: { positionM: [0, 0, 0], massKg: 1 } }, lines: {}, load: "load", stops: { stop } }, []);
    const plane: StopPlane = { pointM: [0, 0, -1], normal: [0, 0, 1] };
    expect(asked({ planes: [] })).toMatchObject({ ok: false, where: "stops.stop.planes" });
    expect(asked({ planes: [{ ...plane, inner: true }] })).toMatchObject({ ok: false, where: "stops.stop.planes" });
    expect(asked({ ...plane, nodes: ["nobody"] })).toMatchObject({ ok: false, where: "stops.stop.nodes" });
  });
});
