import { TOUCH_M } from "../scene/clearance.ts";
import { SAME_POINT_M } from "../scene/outline.ts";
import { boxToPrismSquared } from "./box-to-prism.ts";
import { type CompiledQuestion, groundOf, slopesOf, type Things } from "./compile-question.ts";
import { codeOf, type Finding, fails, leavesOpen, shortBy, UNTOLD } from "./finding.ts";
import {
  type Extent,
  emptyExtent,
  growExtent,
  sidesInRectangle,
  toSidesSquared,
  turnInto,
  withinFlat,
} from "./flat-outlines.ts";
import { emptyBox, segmentToBoxSquared } from "./tilted-box.ts";

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
 * Outline and jacks' feet within the parking ground under the turntable, off keep-out areas, as far from obstacles as is
 * asked for, the outline from wires too; slope along and across. The vehicle is a box over its outline that stands level on
 * the ground's height at the turntable; a jack is an upright line as high as the vehicle. Exact to rounding.
 * Where one place lies on several parking grounds, the first counts.
 */
export function bodyCheck(compiled: CompiledQuestion): BodyCheck {
  const { question, parking, keepOuts, bodyObstacles, wires, feet, bodyReachM, wireReachM, unknownWire } = compiled;
  const { device, bodyClearanceM, slopeLimitRad } = question;
  const { frontM, rearM, leftM, rightM, heightM } = device.outline;
  const lengthM = frontM + rearM;
  const mostPoints = Math.max(parking.x.length, keepOuts.outlines.x.length, bodyObstacles.outlines.x.length);
  const u = new Float64Array(mostPoints);
  const v = new Float64Array(mostPoints);
  const wireU = new Float64Array(2 * wires.count);
  const wireV = new Float64Array(2 * wires.count);
  const frame = { x: 0, y: 0, sin: 0, cos: 1 };
  const inset: Extent = {
    uMin: -rearM + SAME_POINT_M,
    uMax: frontM - SAME_POINT_M,
    vMin: -leftM + SAME_POINT_M,
    vMax: rightM - SAME_POINT_M,
  };
  const vehicle = { ...emptyBox(), sMin: -rearM, sMax: frontM, vMin: -leftM, vMax: rightM, nMax: heightM };
  const askedM = bodyClearanceM ?? 0;
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
    nearKeepOuts = near(keepOuts.index, x, y, bodyReachM);
    nearObstacles = near(bodyObstacles.index, x, y, bodyReachM + askedM + TOUCH_M);
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
    if (unknownWire >= 0) leavesOpen(finding, VEHICLE_TO_WIRE, UNTOLD, UNTOLD, unknownWire);
    if (bodyClearanceM === null && bodyObstacles.count > 0) leavesOpen(finding, VEHICLE_CLEARANCE, UNTOLD, UNTOLD, -1);
  }

  function slopes(headingRad: number, finding: Finding): void {
    const [along, across] = slopesOf(compiled, ground, headingRad);
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

  /** Brings an outline into the vehicle's frame. */
  function see(outlines: Things["outlines"], i: number): void {
    turnInto(frame, outlines.x, outlines.y, outlines.start[i] as number, outlines.start[i + 1] as number, u, v);
  }

  function onGround(finding: Finding): void {
    see(parking, ground);
    const from = parking.start[ground] as number;
    const to = parking.start[ground + 1] as number;
    let out = Math.max(outBy(frontM, -leftM), outBy(frontM, rightM), outBy(-rearM, rightM), outBy(-rearM, -leftM));
    const cut = emptyExtent();
    if (out === 0 && sidesInRectangle(u, v, from, to, inset, cut)) out = shiftToClear(cut);
    if (out > 0) fails(finding, VEHICLE_OFF_PARKING, out, 0, out / lengthM, ground);
    let worst = 0;
    for (let j = 0; j < feet.forward.length; j++)
      worst = Math.max(worst, outBy(feet.forward[j] as number, feet.right[j] as number));
    if (worst > 0) fails(finding, JACK_OFF_PARKING, worst, 0, worst / lengthM, ground);
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
    const { outlines } = keepOuts;
    see(outlines, i);
    const from = outlines.start[i] as number;
    const to = outlines.start[i + 1] as number;
    const cut = emptyExtent();
    sidesInRectangle(u, v, from, to, inset, cut);
    for (const forward of [inset.uMin, inset.uMax])
      for (const right of [inset.vMin, inset.vMax])
        if (withinFlat(u, v, from, to, forward, right)) growExtent(cut, forward, right);
    if (cut.uMin <= cut.uMax) {
      const shift = Math.max(shiftToClear(cut), SAME_POINT_M);
      fails(finding, VEHICLE_ON_KEEP_OUT, shift, 0, shift / lengthM, i);
    }
    for (let j = 0; j < feet.forward.length; j++) {
      const forward = feet.forward[j] as number;
      const right = feet.right[j] as number;
      if (!withinFlat(u, v, from, to, forward, right)) continue;
      const deep = Math.sqrt(toSidesSquared(u, v, from, to, forward, right));
      if (deep > SAME_POINT_M) fails(finding, JACK_ON_KEEP_OUT, deep, 0, deep / lengthM, i);
    }
  }

  /** How far the vehicle would have to go, along or across, for what lies in its outline to be out of it, m. */
  const shiftToClear = (cut: Extent): number =>
    Math.min(cut.uMax + rearM, frontM - cut.uMin, cut.vMax + leftM, rightM - cut.vMin);

  function clearOf(i: number, finding: Finding): void {
    const { outlines, bottomZ, topZ } = bodyObstacles;
    see(outlines, i);
    const from = outlines.start[i] as number;
    const to = outlines.start[i + 1] as number;
    const low = bottomZ[i] as number;
    const high = topZ[i] as number;
    const wanted = Math.max(askedM, TOUCH_M);
    vehicle.z0 = groundZM;
    const squared = boxToPrismSquared(vehicle, u, v, from, to, low, high, wanted * wanted);
    if (squared < wanted * wanted) {
      const found = Math.sqrt(squared);
      fails(finding, VEHICLE_CLEARANCE, found, askedM, shortBy(found, askedM), i);
    }
    const above = Math.max(0, low - (groundZM + heightM), groundZM - high);
    let nearest = wanted * wanted;
    for (let j = 0; j < feet.forward.length; j++) {
      const forward = feet.forward[j] as number;
      const right = feet.right[j] as number;
      const beside = toSidesSquared(u, v, from, to, forward, right);
      const inPlan = withinFlat(u, v, from, to, forward, right) ? 0 : beside;
      nearest = Math.min(nearest, inPlan + above * above);
    }
    if (nearest < wanted * wanted) {
      const found = Math.sqrt(nearest);
      fails(finding, JACK_CLEARANCE, found, askedM, shortBy(found, askedM), i);
    }
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

/** Slope limits below this are taken for this when misses are compared, rad. */
const LEAST_SLOPE_RAD = 0.01;

const near = (index: Things["index"], x: number, y: number, reach: number): readonly number[] =>
  index ? index.search(x - reach, y - reach, x + reach, y + reach) : [];
