import { expect, it } from "vitest";
import { moveThatClears } from "./move-that-clears.ts";
import { openYard } from "./testing/example-question.ts";

const question = openYard;
const { device } = question;
const place = { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 0 };
const pose = { bearingRad: 0, elevationRad: 0.5, lengthM: 20 };
const block = (south: number, north: number, topZM: number) => ({
  id: "b",
  name: "Block",
  outline: [
    [-30, south],
    [30, south],
    [30, north],
    [-30, north],
  ] as const,
  bottomZM: 0,
  topZM,
});

it("lifts a ladder over the near edge of a roof by as much as the right triangles there say", () => {
  // Edge of the roof at u from the pivot: (pivot + u tan φ + h − top) cos φ − half the depth = what is asked. Trigonometry.
  const [southM, topZM, askedM] = [9, 11, 0.6];
  const u = southM + device.pivotSetbackM;
  const wanted =
    topZM -
    device.pivotHeightM -
    u * Math.tan(pose.elevationRad) +
    (device.beamDepthM / 2 + askedM) / Math.cos(pose.elevationRad);
  const asked = { ...question, obstacles: [block(southM, 40, topZM)] };
  const found = moveThatClears(asked, { place, pose }, { check: "ladderClearance", thing: 0, askedM });
  expect(found?.way).toBe("higher");
  expect(Math.abs((found?.byM ?? 0) - wanted)).toBeLessThan(2e-3);
});

it("shifts a vehicle off a wall by how deep it stands in it and what is asked", () => {
  // The front stands 0.4 m beyond the wall's near side, to which the vehicle is square: 0.4 m + 0.3 m straight back.
  const asked = { ...question, bodyObstacles: [block(device.outline.frontM - 0.4, 40, 5)] };
  const found = moveThatClears(asked, { place, pose }, { check: "vehicleClearance", thing: 0, askedM: 0.3 });
  expect(found?.way).toBe("aside");
  expect(Math.abs((found?.byM ?? 0) - 0.7)).toBeLessThan(2e-3);
});

it("tells nothing of checks that are not about a distance to a thing", () => {
  expect(moveThatClears(question, { place, pose }, { check: "tooLong", thing: -1, askedM: 0 })).toBeNull();
});
