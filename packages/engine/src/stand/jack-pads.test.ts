import { describe, expect, test } from "vitest";
import { assessStand } from "./assess-stand.ts";
import type { StandQuestion } from "./stand-question.ts";
import { openYard, rectangle } from "./testing/example-question.ts";

/** Pads of 0.6 m; the example's jacks stand 2.4 m to either side, 3 m ahead of the turntable and 2 m behind it. */
const PADS = { fl: 0.6, fr: 0.6, rl: 0.6, rr: 0.6 };
const narrow = { ...openYard.device, outline: { ...openYard.device.outline, leftM: 1.25, rightM: 1.25, rearM: 2.1 } };
const yard: StandQuestion = { ...openYard, device: narrow, jackPadSideM: PADS, tipDemand: null };
const TARGET = [30, 32, 16] as const;
const facingNorth = (x: number, question: StandQuestion) =>
  assessStand(question, { turntable: [x, 20], headingRad: 0, point: [x, 32, 16] }).reason?.check;

describe("a jack stands on its whole pad, a square in line with the vehicle", () => {
  test("its outer edge is held to the ground, not its middle", () => {
    // Jacks 2.4 m to the side, pads 0.3 m farther out: the ground's edge is at x = 0.
    expect(facingNorth(2.71, yard)).not.toBe("jackOffParking");
    expect(facingNorth(2.69, yard)).toBe("jackOffParking");
    expect(facingNorth(2.69, { ...yard, jackPadSideM: {} })).not.toBe("jackOffParking");
    // Turned by 45° the corner comes nearest: 2.4 m and 3 m along, and half the diagonal of the pad.
    const at = (x: number) =>
      assessStand(yard, { turntable: [x, 20], headingRad: Math.PI / 4, point: [x, 32, 16] }).reason?.check;
    const least = (2.4 + 2) / Math.SQRT2 + 0.3 * Math.SQRT2;
    expect([at(least + 0.01), at(least - 0.01)].map((check) => check === "jackOffParking")).toEqual([false, true]);
  });

  test("is held off a keep-out, also one smaller than the pad", () => {
    const spot = (x: number, y: number): StandQuestion => ({
      ...yard,
      keepOuts: [{ id: "lid", name: "Lid", outline: rectangle(x - 0.05, y - 0.05, x + 0.05, y + 0.05) }],
    });
    // The front right pad's middle is at x = 32.4, y = 23.
    expect(facingNorth(30, spot(32.2, 23.2))).toBe("jackOnKeepOut");
    expect(facingNorth(30, spot(32.8, 23))).not.toBe("jackOnKeepOut");
  });

  test("keeps its distance from an obstacle from its edge", () => {
    const wall = (x: number): StandQuestion => ({
      ...yard,
      bodyObstacles: [{ id: "wall", name: "Wall", outline: rectangle(x, 0, x + 1, 40), bottomZM: 0, topZM: 3 }],
    });
    expect(facingNorth(30, wall(32.7 + 0.51))).not.toBe("jackClearance");
    expect(facingNorth(30, wall(32.7 + 0.49))).toBe("jackClearance");
  });

  test("may stand on two grounds that meet", () => {
    const [ground] = yard.parking;
    if (!ground) throw new Error("no ground");
    const besides = { ...ground, id: "strip", outline: rectangle(-3, 0, 0, 40) };
    expect(facingNorth(2.6, { ...yard, parking: [ground, besides] })).not.toBe("jackOffParking");
    // 2.3 m from the edge the left jacks' middles stand on the strip: its fall counts too, whichever way it falls.
    const steep = { ...besides, plane: { ...besides.plane, slopeRad: 0.08, downhillBearingRad: Math.PI / 4 } };
    const limited = { ...yard, parking: [ground, steep], groundSlopeLimitRad: 0.05 };
    const stand = { turntable: [2.3, 20] as const, headingRad: 0, point: [2.3, 32, 16] as const };
    expect(assessStand(limited, stand).reason).toMatchObject({ check: "groundSlope", value: 0.08, thingId: "strip" });
    expect(facingNorth(2.3, { ...limited, groundSlopeLimitRad: 0.08 })).not.toBe("groundSlope");
    expect(facingNorth(2.5, limited)).not.toBe("groundSlope");
    const apart = { ...besides, outline: rectangle(-3, 0, -0.02, 40) };
    expect(facingNorth(2.6, { ...yard, parking: [ground, apart] })).toBe("jackOffParking");
  });

  test("of a size that is not known leaves the place unknown", () => {
    const plain = { turntable: [30, 20] as const, headingRad: 0, point: TARGET };
    const demand = openYard.tipDemand;
    const known: StandQuestion = { ...yard, tipDemand: demand };
    expect(assessStand(known, plain).status).toBe("feasible");
    const unknown = assessStand({ ...known, jackPadSideM: { ...PADS, fl: null } }, plain);
    expect(unknown.status).toBe("unknown");
    expect(unknown.reason?.check).toBe("jackOffParking");
  });
});

test("ground steeper than its limit is not stood on by facing across the fall at 45°", () => {
  const fall = Math.atan(0.06);
  const [ground] = openYard.parking;
  if (!ground) throw new Error("no ground");
  const sloping: StandQuestion = {
    ...openYard,
    slopeLimitRad: Math.atan(0.05),
    parking: [{ ...ground, plane: { ...ground.plane, slopeRad: fall } }],
  };
  const stand = { turntable: [30, 18] as const, headingRad: Math.PI / 4, point: TARGET };
  // 6 % seen at 45° is 4.2 % along and across.
  expect(assessStand(sloping, stand).status).toBe("feasible");
  const { status, reason } = assessStand({ ...sloping, groundSlopeLimitRad: Math.atan(0.05) }, stand);
  expect(status).toBe("rejected");
  expect(reason).toMatchObject({ check: "groundSlope", value: fall, unit: "rad", thingId: "yard" });
  expect(assessStand({ ...sloping, groundSlopeLimitRad: fall }, stand).reason?.check).not.toBe("groundSlope");
});
