import { describe, expect, test } from "vitest";
import type { AerialDevice } from "../aerial/device.ts";
import { assessStand } from "./assess-stand.ts";
import { searchStands } from "./search-stands.ts";
import { poseOfStand, standAt, standReasonAt, standStatusAt } from "./stand-at.ts";
import type { StandBand } from "./stand-band.ts";
import { cellMiddle, standGrid } from "./stand-grid.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";
import { openYard, randomYard, ratedLadder, rectangle } from "./testing/example-question.ts";

const whole = (question: StandQuestion): StandBand =>
  searchStands(question, { fromRow: 0, toRow: standGrid(question).rows }) ?? expect.unreachable();

/** The same load on the tip, however it stands. */
const alike = (demandN: number): StandQuestion["tipDemand"] => ({
  bearingsRad: [0],
  elevationsRad: [0],
  heightsM: [0],
  demandN: [demandN],
});

const FOOT_M = 0.3048;
const DEGREE_RAD = Math.PI / 180;

/** Anything may hang on it, at any elevation and length up to 60 m. */
const strong: AerialDevice = {
  ...ratedLadder,
  lengthMinM: 1,
  lengthMaxM: 60,
  elevationMinRad: 0,
  elevationMaxRad: 1.5,
  tipRating: {
    source: "invented",
    rows: [{ elevationMinRad: 0, elevationMaxRad: 1.5, lengthMinM: 0, lengthMaxM: 60, ratedTipLoadN: 1e6 }],
  },
};

/** Stands at the yard's middle, level, facing north; hangs the point so far to the north, so high above the pivot. */
const at = (northM: number, upM: number): StandCandidate => ({
  turntable: [30, 10],
  headingRad: 0,
  point: [30, 10 + northM, strong.pivotHeightM + upM],
});
const reachOf = (levelM: number): number => levelM - strong.pivotSetbackM;

/** The least height above the pivot at which the point can hang at a distance from the pivot, by halving, m. */
function leastHeight(question: StandQuestion, levelM: number, low: number, high: number): number {
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (assessStand(question, at(reachOf(levelM), middle)).status === "feasible") high = middle;
    else low = middle;
  }
  return high;
}

describe("open ground", () => {
  test("elevation and length of every place, by trigonometry", () => {
    const question = {
      ...openYard,
      device: strong,
      target: { ...openYard.target, toleranceM: 0, minZM: 15 },
      steps: { cellM: 3, headings: 2, tipPlaces: 1, tipHeights: 4 },
    };
    const band = whole(question);
    const { pivotHeightM, pivotSetbackM } = strong;
    let feasible = 0;
    band.cells.forEach((cell, i) => {
      const [x, y] = cellMiddle(standGrid(question), cell);
      const level = Math.hypot(30 - x, 32 - y) + pivotSetbackM;
      if (standStatusAt(band, i) !== "feasible") return;
      feasible++;
      expect(band.best.steepest.figure[i]).toBeCloseTo(Math.atan2(18 - pivotHeightM, level), 12);
      expect(band.best.shortest.figure[i]).toBeCloseTo(Math.hypot(15 - pivotHeightM, level), 12);
      const stand = standAt(question, cell, band.best.shortest.candidate[i] as number) ?? expect.unreachable();
      expect(poseOfStand(question, stand)?.pose.lengthM).toBeCloseTo(band.best.shortest.figure[i] as number, 9);
    });
    expect(feasible).toBeGreaterThan(50);
  });

  test("what is out of reach says by how much", () => {
    const question = { ...openYard, device: { ...strong, lengthMaxM: 30 } };
    const found = assessStand(question, at(reachOf(32), 24));
    // 32² + 24² = 40².
    expect(found.reason).toMatchObject({
      check: "tooLong",
      value: expect.closeTo(40, 9),
      limit: 30,
      unit: "m",
      shortfall: expect.closeTo(10, 9),
      thingId: null,
    });
  });

  test("what hangs on it counts against the band of the table and the share that may be used", () => {
    const question = { ...openYard, tipDemand: alike(2000), ratedFactor: 0.5 };
    // 3-4-5: elevation 0.93 rad is in the third band (6,000 N less 500 N), 16 m in the second of length.
    const found = assessStand(question, at(reachOf(9.6), 12.8));
    expect(found.figures.leastUsed).toBeCloseTo(2000 / (0.5 * 5500), 12);
    const over = assessStand({ ...question, ratedFactor: 0.25 }, at(reachOf(9.6), 12.8));
    expect(over.reason).toMatchObject({ check: "rating", value: 2000, limit: 1375, shortfall: 625, unit: "N" });
  });
});

describe("over a roof", () => {
  test("a ladder that just clears a dome: published 31.7° and 61.1 ft for 52 ft of reach", () => {
    // Case GEO1 of the mechanics reference (a thermodynamics course's worked example): the middle of the dome 33.0 ft from the
    // ladder's foot at 14.0°, its side another 17.6° up. A wire at the dome's middle that must be kept a radius away is the same.
    const far = 33 * FOOT_M;
    const radius = far * Math.sin(17.6 * DEGREE_RAD);
    const north = reachOf(far * Math.cos(14 * DEGREE_RAD)) + 10;
    const z = strong.pivotHeightM + far * Math.sin(14 * DEGREE_RAD);
    const line = { ...strong, beamWidthM: 0, beamDepthM: 0, outline: { ...strong.outline, frontM: 1 } };
    const dome = {
      id: "dome",
      name: "Dome",
      requiredM: radius,
      points: [
        [0, north, z],
        [60, north, z],
      ] as const,
    };
    const reach = 52 * FOOT_M;
    const up = leastHeight({ ...openYard, device: line, wires: [dome] }, reach, 0, 20);
    // Inputs are given to a tenth.
    expect(Math.atan2(up, reach) / DEGREE_RAD).toBeCloseTo(31.6, 6);
    expect(Math.abs(Math.atan2(up, reach) / DEGREE_RAD - 31.7)).toBeLessThan(0.11);
    expect(Math.abs(Math.hypot(up, reach) / FOOT_M - 61.1)).toBeLessThan(0.1);
  });

  test("a ladder of some depth over a roof's edge, by the tangent from the pivot", () => {
    // Edge at distance d and height h: elevation atan(h/d) + asin((clearance + half depth) / √(d² + h²)). From trigonometry.
    const [d, h] = [12, 8];
    const roof = {
      id: "roof",
      name: "Roof",
      outline: rectangle(0, 10 + reachOf(d), 60, 39),
      bottomZM: 0,
      topZM: strong.pivotHeightM + h,
    };
    const question = { ...openYard, device: strong, obstacles: [roof], ladderClearanceM: 0.6 };
    const up = leastHeight(question, 20, 5, 40);
    const elevation = Math.atan2(h, d) + Math.asin((0.6 + strong.beamDepthM / 2) / Math.hypot(d, h));
    expect(Math.atan2(up, 20)).toBeCloseTo(elevation, 9);
    const found = assessStand(question, at(reachOf(20), up - 0.1));
    expect(found.reason).toMatchObject({ check: "ladderClearance", limit: 0.6, thingId: "roof", unit: "m" });
  });
});

describe("power lines", () => {
  // 29 CFR 1926.1408 Table A, as in the standards reference: kV up to, ft.
  test.each([
    [50, 10],
    [200, 15],
    [350, 20],
    [500, 25],
    [750, 35],
    [1000, 45],
  ])("up to %i kV: %i ft from the ladder's side", (_, feet) => {
    const requiredM = feet * FOOT_M;
    const beside = (gapM: number): StandQuestion => ({
      ...openYard,
      device: strong,
      wires: [
        {
          id: "w",
          name: "Line",
          requiredM,
          points: [
            [30 + strong.beamWidthM / 2 + gapM, -100, 12],
            [30 + strong.beamWidthM / 2 + gapM, 200, 12],
          ],
        },
      ],
    });
    const stand = at(20, 20);
    expect(assessStand(beside(requiredM + 1e-6), stand).status).toBe("feasible");
    const short = assessStand(beside(requiredM - 0.5), stand);
    expect(short.status).toBe("rejected");
    expect(short.reason).toMatchObject({ check: "ladderToWire", thingId: "w", limit: requiredM });
    expect(short.reason?.shortfall).toBeCloseTo(0.5, 9);
  });
});

describe("what is not known is kept apart", () => {
  const stand = at(15, 12);
  const block = { id: "b", name: "Block", outline: rectangle(0, 0, 3, 3), bottomZM: 0, topZM: 3 };
  const wire = {
    id: "w",
    name: "Line",
    requiredM: null,
    points: [
      [0, 0, 9],
      [9, 0, 9],
    ] as const,
  };
  test.each<[string, Partial<StandQuestion>, string]>([
    ["the clearance of the ladder", { obstacles: [block], ladderClearanceM: null }, "ladderClearance"],
    ["the clearance of the vehicle", { bodyObstacles: [block], bodyClearanceM: null }, "vehicleClearance"],
    ["the steepest slope", { slopeLimitRad: null }, "slopeAcross"],
    ["the force on the tip", { tipDemand: null }, "rating"],
    ["the rating", { device: { ...strong, tipRating: { source: "", rows: [] } } }, "rating"],
    ["the distance to a power line, wherever it hangs", { wires: [wire] }, "vehicleToWire"],
  ])("%s", (_, missing, check) => {
    const known: StandQuestion = { ...openYard, device: strong };
    expect(assessStand(known, stand).status).toBe("feasible");
    const found = assessStand({ ...known, ...missing }, stand);
    expect(found.status).toBe("unknown");
    expect(found.reason).toMatchObject({ check, limit: found.reason?.limit ?? null, shortfall: null });
    const band = whole({ ...known, ...missing });
    expect([...band.feasibleCount].every((n) => n === 0)).toBe(true);
    const i = [...band.status].indexOf(1);
    expect(standReasonAt({ ...known, ...missing }, band, i)?.check).toBe(check);
  });

  test("but what is known to be wrong rejects all the same", () => {
    const question = { ...openYard, device: strong, slopeLimitRad: null };
    expect(assessStand(question, { ...stand, turntable: [1, 1] }).status).toBe("rejected");
  });
});

describe("asking for more never gives more", () => {
  const seeds = [1, 2, 3, 4, 5, 6, 7, 8];
  const feasible = (question: StandQuestion): readonly boolean[] => [...whole(question).status].map((s) => s === 0);
  const compare = (less: StandQuestion, more: StandQuestion): number => {
    const wide = feasible(less);
    const tight = feasible(more);
    expect(tight.some((yes, i) => yes && !wide[i])).toBe(false);
    return wide.filter((yes, i) => yes && !tight[i]).length;
  };
  const steps = { cellM: 3, headings: 4, tipPlaces: 3, tipHeights: 3 };

  test.each<[string, (q: StandQuestion) => StandQuestion]>([
    ["ladder clearance", (q) => ({ ...q, ladderClearanceM: (q.ladderClearanceM ?? 0) + 1.5 })],
    ["vehicle clearance", (q) => ({ ...q, bodyClearanceM: (q.bodyClearanceM ?? 0) + 1 })],
    ["distance to wires", (q) => ({ ...q, wires: q.wires.map((w) => ({ ...w, requiredM: (w.requiredM ?? 0) + 2 })) })],
    ["a larger keep-out", (q) => ({ ...q, keepOuts: [{ id: "k", name: "", outline: rectangle(0, 0, 35, 35) }] })],
    ["a heavier load", (q) => ({ ...q, ratedFactor: 0.7 * q.ratedFactor })],
    ["leveller ground", (q) => ({ ...q, slopeLimitRad: 0.5 * (q.slopeLimitRad ?? 0) })],
  ])("%s", (_, harder) => {
    const lost = seeds.map((seed) => {
      const question = { ...randomYard(seed), keepOuts: [], steps };
      return compare(question, harder(question));
    });
    expect(Math.max(...lost)).toBeGreaterThan(0);
  });
});

test("an outline of two points is refused", () => {
  const line = { id: "l", name: "", outline: [[0, 0] as const, [1, 1] as const] };
  expect(() => whole({ ...openYard, keepOuts: [line] })).toThrow(RangeError);
});
