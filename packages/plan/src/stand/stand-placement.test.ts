import { assessStand, type PlanPoint, poseAerial, poseOfStand, riggingPointAt, vehiclePoint } from "@gantline/engine";
import { describe, expect, it } from "vitest";
import { EXAMPLES } from "../examples/all-examples.ts";
import { crossingExample } from "../examples/crossing.ts";
import { roofExample } from "../examples/roof.ts";
import { asRiggingPoint, hungFrom } from "../rig/hung-from.ts";
import type { Plan } from "../schema/plan.ts";
import { standPlacement } from "./stand-placement.ts";
import type { PaintMark } from "./stand-types.ts";
import { sweepStand } from "./sweep-stand.ts";
import { tapeTo } from "./tape-to.ts";
import { askOf, openGround } from "./testing/open-ground.ts";
import { withStand } from "./with-stand.ts";

/** Where two people with tapes meet: the crossing of two circles, on the side that is said. */
function whereTapesMeet({ tapes, side }: PaintMark): PlanPoint {
  const [one, other] = tapes;
  if (!one || !other || side === null) throw new Error("fewer than two tapes");
  const [ax, ay] = one.from.at;
  const [ex, ey] = [other.from.at[0] - ax, other.from.at[1] - ay];
  const d = Math.hypot(ex, ey);
  const along = (one.distanceM ** 2 - other.distanceM ** 2 + d * d) / (2 * d);
  const square = Math.sqrt(Math.max(0, one.distanceM ** 2 - along * along)) * (side === "left" ? 1 : -1);
  return [ax + (along * ex - square * ey) / d, ay + (along * ey + square * ex) / d];
}

describe("what is painted on the ground", () => {
  it.each(EXAMPLES)("can be found again with two tapes: $key", ({ plan }) => {
    const { marks } = standPlacement(plan);
    const { device, place } = plan.aerial;
    expect(marks.map((m) => m.id)).toEqual(["turntable", ...device.jacks.map((j) => `jack/${j.id}`)]);
    for (const mark of marks) {
      const [x, y] = whereTapesMeet(mark);
      expect(Math.hypot(x - mark.at[0], y - mark.at[1])).toBeLessThan(1e-9);
      const jack = device.jacks.find((j) => `jack/${j.id}` === mark.id);
      const at = vehiclePoint(place, { forwardM: jack?.forwardM ?? 0, rightM: jack?.rightM ?? 0, upM: 0 });
      expect(Math.hypot(at[0] - mark.at[0], at[1] - mark.at[1])).toBeLessThan(1e-9);
      expect(mark.crossingRad).toBeGreaterThan(Math.PI / 12);
    }
  });

  it("reads at the ladder what the plan has", () => {
    const p = standPlacement(crossingExample);
    // Ladder north, front south; shortest 9.8 m.
    expect(p.turnRad).toBeCloseTo(Math.PI, 12);
    expect(p.elevationRad).toBe(crossingExample.aerial.pose.elevationRad);
    expect(p.extensionM).toBeCloseTo(24 - 9.8, 12);
  });

  it("prefers tapes that are near and cross squarely, and runs none through a wall", () => {
    const mark = { id: "m", name: "M", at: [0, 0] as const };
    const point = (id: string, x: number, y: number) => ({ id, name: id, at: [x, y] as const });
    const points = [point("east", 5, 0), point("north", 0, 6), point("flat", -5, 0.5), point("far", 30, 30)];
    expect(tapeTo(mark, points, []).tapes.map((t) => t.from.id)).toEqual(["east", "north"]);
    const wall = [
      [-1, 2],
      [1, 2],
      [1, 3],
      [-1, 3],
    ] as const;
    const round = tapeTo(mark, points, [wall]);
    expect(round.tapes.map((t) => t.from.id)).not.toContain("north");
    const alone = tapeTo(mark, points.slice(0, 1), []);
    expect([alone.tapes.length, alone.side, alone.crossingRad]).toEqual([1, null, null]);
  });
});

describe("how far off the vehicle may be parked", () => {
  const pointOf = (plan: Plan) => {
    const { device, place, pose } = plan.aerial;
    const hung = hungFrom(device, plan.rig.mainLines);
    if (hung === null) throw new Error("nothing hangs");
    return riggingPointAt(poseAerial(device, place, pose), asRiggingPoint(hung));
  };

  it("holds up to the edge it names by the search's exact check, and not beyond", () => {
    const { question } = askOf(crossingExample);
    const { turntableX, turntableY, headingRad } = crossingExample.aerial.place;
    const point = pointOf(crossingExample);
    const { parkedOff } = standPlacement(crossingExample);
    expect(parkedOff).toHaveLength(16);
    const statusAt = (bearingRad: number, m: number): string =>
      assessStand(question, {
        turntable: [turntableX + m * Math.sin(bearingRad), turntableY + m * Math.cos(bearingRad)],
        headingRad,
        point,
      }).status;
    let bounded = 0;
    for (const { bearingRad, distanceM, governs, loadGoverns } of parkedOff) {
      for (const share of [0.25, 0.5, 0.75, 1]) expect(statusAt(bearingRad, share * distanceM)).toBe("feasible");
      if (governs === null) {
        if (!loadGoverns) expect(distanceM).toBe(1);
        continue;
      }
      bounded++;
      expect(statusAt(bearingRad, distanceM + 0.006)).toBe("rejected");
    }
    expect(bounded).toBeGreaterThan(4);
    // The vehicle's rear, 3.2 m behind the turntable, meets the yard's north edge at 7 m from 3 m: 0.8 m.
    expect(parkedOff[0]?.distanceM).toBeCloseTo(0.8, 2);
  });

  it("draws no place that fails: every corner and random places within the area hold, and it reaches as far as the rays", () => {
    const { question } = askOf(crossingExample);
    const { turntableX, turntableY, headingRad } = crossingExample.aerial.place;
    const point = pointOf(crossingExample);
    const { area, parkedOff } = standPlacement(crossingExample);
    if (area === null) throw new Error("no area");
    const statusAt = (east: number, north: number): string =>
      assessStand(question, { turntable: [turntableX + east, turntableY + north], headingRad, point }).status;
    let squaredM = 0;
    for (const { westM, eastM, southM, northM } of area.strips) {
      squaredM += (eastM - westM) * (northM - southM);
      for (const share of [0, 0.137, 0.331, 0.618, 0.871, 1])
        for (const up of [0, 0.29, 0.77, 1])
          expect(statusAt(westM + share * (eastM - westM), southM + up * (northM - southM))).toBe("feasible");
    }
    const least = Math.min(...parkedOff.map((p) => p.distanceM));
    expect(area.freeM).toBeLessThanOrEqual(least + 1e-9);
    expect(area.freeM).toBeGreaterThan(0);
    // The outline through the ends of the rays, less what lies in squares of 5 cm along it.
    const byRays = parkedOff.reduce((sum, p, k) => {
      const next = parkedOff[(k + 1) % 16]?.distanceM ?? 0;
      return sum + (p.distanceM * next * Math.sin(Math.PI / 8)) / 2;
    }, 0);
    expect(squaredM / byRays).toBeGreaterThan(0.8);
    expect(squaredM / byRays).toBeLessThan(1.1);
  });

  it("draws no place of the roof example at which ropes, load or tether fail a sweep", () => {
    // Found by an audit: with a tether the area reached far beyond where the load is held.
    const { device, place, pose } = roofExample.aerial;
    const { area, parkedOff, heldToLoad } = standPlacement(roofExample);
    expect(heldToLoad).toBe(true);
    expect(parkedOff.some((p) => p.loadGoverns)).toBe(true);
    const { question } = askOf(roofExample);
    const point = pointOf(roofExample);
    const corners = (area?.strips ?? []).flatMap((s) => [
      [s.westM, s.southM],
      [s.eastM, s.northM],
    ]);
    const farthest = corners.sort((a, b) => Math.hypot(b[0] ?? 0, b[1] ?? 0) - Math.hypot(a[0] ?? 0, a[1] ?? 0));
    const looked = farthest.filter((_, k) => k % Math.ceil(farthest.length / 6) === 0);
    for (const [east = 0, north = 0] of looked) {
      const turntable = [place.turntableX + east, place.turntableY + north] as const;
      const posed = poseOfStand(question, { turntable, headingRad: place.headingRad, point });
      const stood = withStand(roofExample, {
        device,
        turntable,
        headingRad: place.headingRad,
        pose: posed?.pose ?? pose,
      });
      expect(sweepStand(stood).fit, `${east}, ${north}`).not.toBe("fails");
    }
  }, 120_000);

  it("tells what is read at the ladder that far off, by the triangle at the pivot", () => {
    const { device, place, pose } = crossingExample.aerial;
    const { parkedOff } = standPlacement(crossingExample);
    const behind = parkedOff.find((p) => Math.abs(Math.cos(p.bearingRad - pose.bearingRad) + 1) < 0.02);
    if (!behind) throw new Error("no ray leads straight away");
    // Rise kept, reach longer by the shift: tan φ = rise / reach. Trigonometry; the rigging point hangs a little off the tip.
    const rise = pose.lengthM * Math.sin(pose.elevationRad);
    const reach = pose.lengthM * Math.cos(pose.elevationRad) + behind.distanceM;
    expect(Math.abs(behind.reading.elevationRad - Math.atan2(rise, reach))).toBeLessThan(0.004);
    expect(Math.abs(behind.reading.lengthM - Math.hypot(rise, reach))).toBeLessThan(0.05);
    expect(behind.reading.used).toBeGreaterThan(0);
    expect(behind.reading.lengthM).toBeLessThanOrEqual(device.lengthMaxM);
    expect(place.headingRad + behind.reading.turnRad - behind.reading.bearingRad).toBeCloseTo(
      2 * Math.PI * Math.round((place.headingRad + behind.reading.turnRad - behind.reading.bearingRad) / (2 * Math.PI)),
      9,
    );
  });

  it("is a metre all round on open ground, and nothing where the stand itself does not hold", () => {
    const near = openGround();
    const place = { ...near.aerial.place, turntableY: -10.5 };
    const plan: Plan = { ...near, aerial: { ...near.aerial, place } };
    expect(standPlacement(plan).parkedOff.map((p) => p.distanceM)).toEqual(Array.from({ length: 16 }, () => 1));
    const off: Plan = {
      ...plan,
      aerial: { ...plan.aerial, place: { ...plan.aerial.place, turntableX: 40 } },
    };
    const placement = standPlacement(off);
    expect(placement.parkedOff).toEqual([]);
    expect(placement.governs?.check).toBe("offParking");
  });
});
