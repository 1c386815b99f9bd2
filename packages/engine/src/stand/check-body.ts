import { TOUCH_M } from "../scene/clearance.ts";
import { type Outline, SAME_POINT_M } from "../scene/outline.ts";
import { uncoveredPoint } from "../scene/outline-cover.ts";
import { type CompiledQuestion, groundOf, slopesOf, type Things } from "./compile-question.ts";
import { codeOf, type Finding, fails, leavesOpen, shortBy, UNTOLD } from "./finding.ts";
import {
  type Extent,
  emptyExtent,
  extentOf,
  gapSquared,
  growExtent,
  outside,
  rectangleToOutlineSquared,
  sidesInRectangle,
  toSidesSquared,
  turnInto,
  withinFlat,
} from "./flat-outlines.ts";
import { emptyBox, segmentToBoxSquared, spanGap } from "./tilted-box.ts";

const OFF_PARKING = codeOf("offParking");
const VEHICLE_OFF_PARKING = codeOf("vehicleOffParking");
const JACK_OFF_PARKING = codeOf("jackOffParking");
const VEHICLE_ON_KEEP_OUT = codeOf("vehicleOnKeepOut");
const JACK_ON_KEEP_OUT = codeOf("jackOnKeepOut");
const VEHICLE_CLEARANCE = codeOf("vehicleClearance");
const JACK_CLEARANCE = codeOf("jackClearance");
const VEHICLE_TO_WIRE = codeOf("vehicleToWire");
const SLOPE_ALONG = codeOf("slopeAlong");
const SLOPE_ACROSS = codeOf("slopeAcross");
const GROUND_SLOPE = codeOf("groundSlope");

/** Tells how vehicle and jacks stand at one place: first `at` a place, then `facing` each heading. */
export interface BodyCheck {
  /** Ground level at the place, m. */
  readonly groundZM: number;
  /** Goes to a place. False if it lies on no parking ground: `finding` then says how far off. */
  at(x: number, y: number, finding: Finding): boolean;
  /** Notes what speaks against a heading at that place; given by its sine and cosine as well. */
  facing(headingRad: number, sin: number, cos: number, finding: Finding): void;
}

/**
 * May the vehicle stand here, and facing that way?
 *
 * Outline and jacks' pads within the parking ground under the turntable (a pad also on several grounds together), off
 * keep-out areas, as far from obstacles as is asked for, the outline from wires too; slope along and across. The vehicle is
 * a box over its outline that stands level on the ground's height at the turntable; a jack is upright over its whole pad,
 * a square in line with the vehicle, as high as the vehicle, and a line where the pad's size is not known. Exact to rounding.
 * Where one place lies on several parking grounds, the first counts.
 */
export function bodyCheck(compiled: CompiledQuestion): BodyCheck {
  const { question, parking, keepOuts, bodyObstacles, wires, feet, bodyReachM, wireReachM, unknownWire, unknownPad } =
    compiled;
  const { device, bodyClearanceM, slopeLimitRad } = question;
  const { frontM, rearM, leftM, rightM, heightM } = device.outline;
  const lengthM = frontM + rearM;
  const mostPoints = Math.max(parking.x.length, keepOuts.outlines.x.length, bodyObstacles.outlines.x.length);
  const u = new Float64Array(mostPoints);
  const v = new Float64Array(mostPoints);
  const wireU = new Float64Array(2 * wires.count);
  const wireV = new Float64Array(2 * wires.count);
  const frame = { x: 0, y: 0, sin: 0, cos: 1 };
  const body: Extent = { uMin: -rearM, uMax: frontM, vMin: -leftM, vMax: rightM };
  const pads = Array.from(feet.half, (half, j): Extent => {
    const [forward, right] = [feet.forward[j] as number, feet.right[j] as number];
    return { uMin: forward - half, uMax: forward + half, vMin: right - half, vMax: right + half };
  });
  /** Round vehicle and pads. */
  const whole: Extent = { ...body };
  for (const pad of pads) {
    growExtent(whole, pad.uMin, pad.vMin);
    growExtent(whole, pad.uMax, pad.vMax);
  }
  const seen = emptyExtent();
  const vehicle = { ...emptyBox(), sMin: -rearM, sMax: frontM, vMin: -leftM, vMax: rightM, nMax: heightM };
  const askedM = bodyClearanceM ?? 0;
  const wantedM = Math.max(askedM, TOUCH_M);
  const groundLimitRad = question.groundSlopeLimitRad ?? Number.MAX_VALUE;
  let ground = -1;
  let groundZM = 0;
  let allOnGround = false;
  let nearKeepOuts: readonly number[] = [];
  let nearObstacles: readonly number[] = [];
  let nearWires: readonly number[] = [];

  function at(x: number, y: number, finding: Finding): boolean {
    frame.x = x;
    frame.y = y;
    ground = -1;
    let nearest = -1;
    let nearestSquared = Number.MAX_VALUE;
    for (let p = 0; p < question.parking.length && ground < 0; p++) {
      const from = parking.start[p] as number;
      const to = parking.start[p + 1] as number;
      const squared = toSidesSquared(parking.x, parking.y, from, to, x, y);
      if (withinFlat(parking.x, parking.y, from, to, x, y) || squared <= SAME_POINT_M * SAME_POINT_M) {
        ground = p;
        allOnGround = squared > bodyReachM * bodyReachM && withinFlat(parking.x, parking.y, from, to, x, y);
      } else if (squared < nearestSquared) {
        nearest = p;
        nearestSquared = squared;
      }
    }
    if (ground < 0) {
      const offM = nearest < 0 ? 0 : Math.sqrt(nearestSquared);
      fails(finding, OFF_PARKING, offM, 0, Math.max(offM / lengthM, 1e-9), nearest);
      return false;
    }
    groundZM = groundOf(compiled, ground, x, y);
    nearKeepOuts = near(keepOuts.index, x, y, bodyReachM).filter((i) => isRound(keepOuts, i, x, y, bodyReachM));
    nearObstacles = near(bodyObstacles.index, x, y, bodyReachM + wantedM).filter(
      (i) => gapUp(i) < wantedM && isRound(bodyObstacles, i, x, y, bodyReachM + wantedM),
    );
    nearWires = near(wires.index, x, y, bodyReachM + wireReachM + TOUCH_M);
    return true;
  }

  function facing(headingRad: number, sin: number, cos: number, finding: Finding): void {
    frame.sin = sin;
    frame.cos = cos;
    slopes(headingRad, finding);
    if (!allOnGround) onGround(finding);
    for (const i of nearKeepOuts) offKeepOut(i, finding);
    for (const i of nearObstacles) clearOf(i, finding);
    for (const i of nearWires) clearOfWire(i, finding);
    if (unknownPad) leavesOpen(finding, JACK_OFF_PARKING, UNTOLD, UNTOLD, ground);
    if (unknownWire >= 0) leavesOpen(finding, VEHICLE_TO_WIRE, UNTOLD, UNTOLD, unknownWire);
    if (bodyClearanceM === null && bodyObstacles.count > 0) leavesOpen(finding, VEHICLE_CLEARANCE, UNTOLD, UNTOLD, -1);
  }

  function slopes(headingRad: number, finding: Finding): void {
    const [along, across] = slopesOf(compiled, ground, headingRad);
    fallOf(ground, finding);
    if (slopeLimitRad === null) {
      leavesOpen(finding, along > across ? SLOPE_ALONG : SLOPE_ACROSS, Math.max(along, across), UNTOLD, ground);
      return;
    }
    const scale = Math.max(slopeLimitRad, LEAST_SLOPE_RAD);
    if (along > slopeLimitRad)
      fails(finding, SLOPE_ALONG, along, slopeLimitRad, (along - slopeLimitRad) / scale, ground);
    if (across > slopeLimitRad)
      fails(finding, SLOPE_ACROSS, across, slopeLimitRad, (across - slopeLimitRad) / scale, ground);
  }

  /** How far an obstacle ends below the vehicle or begins above it, m. */
  const gapUp = (i: number): number =>
    spanGap(bodyObstacles.bottomZ[i] as number, bodyObstacles.topZ[i] as number, groundZM, groundZM + heightM);

  /** Brings an outline into the vehicle's frame. */
  function see(outlines: Things["outlines"], i: number): void {
    turnInto(frame, outlines.x, outlines.y, outlines.start[i] as number, outlines.start[i + 1] as number, u, v);
  }

  function onGround(finding: Finding): void {
    see(parking, ground);
    const out = rectangleOutBy(body);
    if (out > 0) fails(finding, VEHICLE_OFF_PARKING, out, 0, out / lengthM, ground);
    let worst = 0;
    for (const pad of pads) {
      const padOut = rectangleOutBy(pad);
      if (padOut <= 0) continue;
      if (isOnSeveral(pad)) fallUnder(pad, finding);
      else worst = Math.max(worst, padOut);
    }
    if (worst > 0) fails(finding, JACK_OFF_PARKING, worst, 0, worst / lengthM, ground);
  }

  /** The fall of one of the parking grounds against the limit, whichever way the vehicle faces. */
  function fallOf(parkingGround: number, finding: Finding): void {
    const fall = question.parking[parkingGround]?.plane.slopeRad ?? 0;
    if (fall <= groundLimitRad + SAME_SLOPE_RAD) return;
    const miss = fall / Math.max(groundLimitRad, LEAST_SLOPE_RAD) - 1;
    fails(finding, GROUND_SLOPE, fall, groundLimitRad, miss, parkingGround);
  }

  /** The fall of the ground under a pad that does not stand on the turntable's ground alone: the first its middle lies on. */
  function fallUnder({ uMin, uMax, vMin, vMax }: Extent, finding: Finding): void {
    const [forward, right] = [(uMin + uMax) / 2, (vMin + vMax) / 2];
    const x = frame.x + forward * frame.sin + right * frame.cos;
    const y = frame.y + forward * frame.cos - right * frame.sin;
    const holds = (p: number): boolean =>
      withinFlat(parking.x, parking.y, parking.start[p] as number, parking.start[p + 1] as number, x, y);
    if (holds(ground)) return;
    const on = question.parking.findIndex((_, p) => holds(p));
    if (on >= 0) fallOf(on, finding);
  }

  /** How far a rectangle of the vehicle lies off the ground just seen, m: its worst corner, or what reaches into it between them. */
  function rectangleOutBy(r: Extent): number {
    if (isPoint(r)) return outBy(r.uMin, r.vMin);
    const out = Math.max(outBy(r.uMax, r.vMin), outBy(r.uMax, r.vMax), outBy(r.uMin, r.vMax), outBy(r.uMin, r.vMin));
    if (out > 0) return out;
    const cut = emptyExtent();
    const [from, to] = [parking.start[ground] as number, parking.start[ground + 1] as number];
    return sidesInRectangle(u, v, from, to, insetOf(r), cut) ? shiftToClear(r, cut) : 0;
  }

  /** Do several grounds carry a pad together? */
  function isOnSeveral(pad: Extent): boolean {
    if (question.parking.length < 2 || isPoint(pad)) return false;
    const { uMin, uMax, vMin, vMax } = pad;
    const square: Outline = [
      [uMax, vMin],
      [uMax, vMax],
      [uMin, vMax],
      [uMin, vMin],
    ].map(([f = 0, r = 0]) => [frame.x + f * frame.sin + r * frame.cos, frame.y + f * frame.cos - r * frame.sin]);
    return (
      uncoveredPoint(
        square,
        question.parking.map((p) => p.outline),
      ) === null
    );
  }

  /** How far a point of the vehicle lies off the ground just seen, m. */
  function outBy(forward: number, right: number): number {
    const from = parking.start[ground] as number;
    const to = parking.start[ground + 1] as number;
    if (withinFlat(u, v, from, to, forward, right)) return 0;
    const squared = toSidesSquared(u, v, from, to, forward, right);
    return squared <= SAME_POINT_M ** 2 ? 0 : Math.sqrt(squared);
  }

  function offKeepOut(i: number, finding: Finding): void {
    if (isBeside(keepOuts, i, 0)) return;
    see(keepOuts.outlines, i);
    const shift = rectangleInBy(i, body);
    if (shift > 0) fails(finding, VEHICLE_ON_KEEP_OUT, shift, 0, shift / lengthM, i);
    for (const pad of pads) {
      const deep = isPoint(pad) ? pointInBy(i, pad.uMin, pad.vMin) : rectangleInBy(i, pad);
      if (deep > 0) fails(finding, JACK_ON_KEEP_OUT, deep, 0, deep / lengthM, i);
    }
  }

  /** How far a rectangle of the vehicle would have to go, along or across, for the keep-out just seen to be out of it, m; 0: it is. */
  function rectangleInBy(i: number, r: Extent): number {
    const { start } = keepOuts.outlines;
    const [from, to] = [start[i] as number, start[i + 1] as number];
    const cut = emptyExtent();
    const inset = insetOf(r);
    sidesInRectangle(u, v, from, to, inset, cut);
    for (const forward of [inset.uMin, inset.uMax])
      for (const right of [inset.vMin, inset.vMax])
        if (withinFlat(u, v, from, to, forward, right)) growExtent(cut, forward, right);
    return cut.uMin <= cut.uMax ? Math.max(shiftToClear(r, cut), SAME_POINT_M) : 0;
  }

  function pointInBy(i: number, forward: number, right: number): number {
    const { start } = keepOuts.outlines;
    const [from, to] = [start[i] as number, start[i + 1] as number];
    if (!withinFlat(u, v, from, to, forward, right)) return 0;
    const deep = Math.sqrt(toSidesSquared(u, v, from, to, forward, right));
    return deep > SAME_POINT_M ? deep : 0;
  }

  function clearOf(i: number, finding: Finding): void {
    if (isBeside(bodyObstacles, i, wantedM)) return;
    const { outlines } = bodyObstacles;
    see(outlines, i);
    const from = outlines.start[i] as number;
    const to = outlines.start[i + 1] as number;
    extentOf(u, v, from, to, seen);
    // All is upright, so that what is between in plan and in height can be told apart.
    const up = gapUp(i);
    const wanted = wantedM * wantedM - up * up;
    if (gapSquared(seen, whole) >= wanted) return;
    const toVehicle =
      gapSquared(seen, body) < wanted ? rectangleToOutlineSquared(u, v, from, to, body, wanted) : wanted;
    if (toVehicle < wanted) {
      const found = Math.sqrt(toVehicle + up * up);
      fails(finding, VEHICLE_CLEARANCE, found, askedM, shortBy(found, askedM), i);
    }
    let nearest = wanted;
    for (const pad of pads)
      if (gapSquared(seen, pad) < nearest) nearest = rectangleToOutlineSquared(u, v, from, to, pad, nearest);
    if (nearest < wanted) {
      const found = Math.sqrt(nearest + up * up);
      fails(finding, JACK_CLEARANCE, found, askedM, shortBy(found, askedM), i);
    }
  }

  /** Does the circle round a thing keep a distance from vehicle and jacks? */
  function isBeside({ midX, midY, radius }: Things, i: number, distance: number): boolean {
    const east = (midX[i] as number) - frame.x;
    const north = (midY[i] as number) - frame.y;
    const du = outside(east * frame.sin + north * frame.cos, whole.uMin, whole.uMax);
    const dv = outside(east * frame.cos - north * frame.sin, whole.vMin, whole.vMax);
    const apart = distance + (radius[i] as number);
    return du * du + dv * dv >= apart * apart;
  }

  function clearOfWire(piece: number, finding: Finding): void {
    const required = wires.requiredM[piece] as number;
    const wanted = Math.max(required, TOUCH_M);
    vehicle.z0 = groundZM;
    const a = 2 * piece;
    const b = a + 1;
    turnInto(frame, wires.x, wires.y, a, a + 2, wireU, wireV);
    const squared = segmentToBoxSquared(
      vehicle,
      wireU[a] as number,
      wireV[a] as number,
      wires.z[a] as number,
      wireU[b] as number,
      wireV[b] as number,
      wires.z[b] as number,
      wanted * wanted,
    );
    const wire = wires.wire[piece] as number;
    if (squared < wanted * wanted) {
      const found = Math.sqrt(squared);
      const asked = Math.max(0, required);
      fails(finding, VEHICLE_TO_WIRE, found, asked, shortBy(found, asked), wire);
    }
  }

  return {
    get groundZM() {
      return groundZM;
    },
    at,
    facing,
  };
}

/** Does the circle round a thing come so near to a place? */
function isRound({ midX, midY, radius }: Things, i: number, x: number, y: number, reach: number): boolean {
  const east = (midX[i] as number) - x;
  const north = (midY[i] as number) - y;
  const apart = reach + (radius[i] as number);
  return east * east + north * north < apart * apart;
}

const isPoint = ({ uMin, uMax }: Extent): boolean => uMax - uMin <= 2 * SAME_POINT_M;

const insetOf = ({ uMin, uMax, vMin, vMax }: Extent): Extent => ({
  uMin: uMin + SAME_POINT_M,
  uMax: uMax - SAME_POINT_M,
  vMin: vMin + SAME_POINT_M,
  vMax: vMax - SAME_POINT_M,
});

/** How far a rectangle would have to go, along or across, for what lies in it to be out of it, m. */
const shiftToClear = (r: Extent, cut: Extent): number =>
  Math.min(cut.uMax - r.uMin, r.uMax - cut.uMin, cut.vMax - r.vMin, r.vMax - cut.vMin);

/** Slopes closer than this are one, rad. */
const SAME_SLOPE_RAD = 1e-9;
/** Slope limits below this are taken for this when misses are compared, rad. */
const LEAST_SLOPE_RAD = 0.01;

const near = (index: Things["index"], x: number, y: number, reach: number): readonly number[] =>
  index ? index.search(x - reach, y - reach, x + reach, y + reach) : [];
