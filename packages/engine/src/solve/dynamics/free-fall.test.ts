import { describe, expect, it } from "vitest";
import { STANDARD_GRAVITY_MS2 as G } from "../../base/constants.ts";
import { site } from "../../base/vector.ts";
import { fallenTo, freeFall } from "./free-fall.ts";
import { letGo } from "./let-go.ts";
import type { Stop, StopPlane } from "./let-go-types.ts";

const ground: Stop = { pointM: [0, 0, 0], normal: [0, 0, 1] };
/** An upright body between two corners. */
const block = ([x, y, z]: [number, number, number], [X, Y, Z]: [number, number, number]): Stop => ({
  planes: [
    [
      [x, y, z],
      [-1, 0, 0],
    ],
    [
      [x, y, z],
      [0, -2, 0],
    ],
    [
      [x, y, z],
      [0, 0, -1],
    ],
    [
      [X, Y, Z],
      [3, 0, 0],
    ],
    [
      [X, Y, Z],
      [0, 1, 0],
    ],
    [
      [X, Y, Z],
      [0, 0, 1],
    ],
  ].map(([pointM, normal]) => ({ pointM, normal }) as unknown as StopPlane),
});

describe("a box let go at rest", () => {
  it("falls h in √(2h/g) and is then as fast as √(2gh)", () => {
    // Any textbook: 4.903325 m in the first second, and 9.80665 m/s at its end.
    const box = { positionM: site(1, 2, 0.5 + G / 2), halfSizeM: [0.3, 0.3, 0.5] } as const;
    const found = freeFall(box, { ground });
    expect(found).toEqual({
      heightM: expect.closeTo(4.903325, 9),
      timeS: expect.closeTo(1, 9),
      speedMS: expect.closeTo(9.80665, 9),
      stop: "ground",
    });
    expect(fallenTo(box.positionM, 1)[2]).toBeCloseTo(0.5, 9);
  });

  it("is stopped by what any part of it comes down on first, and falls past what it only grazes", () => {
    const box = { positionM: site(0, 0, 10), halfSizeM: [0.5, 0.5, 0.5] } as const;
    const under = block([0.4, -1, 2], [2, 1, 3]);
    expect(freeFall(box, { ground, under })).toMatchObject({ stop: "under", heightM: 6.5 });
    const beside = block([0.5, -1, 2], [2, 1, 3]);
    expect(freeFall(box, { ground, beside })).toMatchObject({ stop: "ground", heightM: 9.5 });
    const above = block([-1, -1, 12], [1, 1, 13]);
    expect(freeFall(box, { ground, above })?.stop).toBe("ground");
    expect(freeFall(box, { above })).toBeNull();
    const around = block([-1, -1, 9], [1, 1, 11]);
    expect(freeFall(box, { ground, around })).toMatchObject({ stop: "around", heightM: 0, speedMS: 0, timeS: 0 });
  });

  it("does what a motion without ropes does when it is followed", () => {
    const box = { positionM: site(0, 0, 30), halfSizeM: [0.4, 0.9, 0.3] } as const;
    const stops = { ground, roof: block([0.3, 0, 0], [5, 5, 12]) };
    const expected = freeFall(box, stops);
    const followed = letGo({ nodes: { load: { ...box, massKg: 100 } }, lines: {}, stops, load: "load" }, [], {
      durationS: 5,
    });
    if (!followed.ok || !expected) throw new Error("no fall");
    const [touch] = followed.touches;
    expect(touch?.stop).toBe(expected.stop);
    expect(touch?.atS).toBeCloseTo(expected.timeS, 6);
    expect(touch?.speedMS).toBeCloseTo(expected.speedMS, 5);
    expect(followed.load.dropM).toBeCloseTo(expected.heightM, 6);
  });
});
