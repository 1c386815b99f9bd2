import { POSE_TOLERANCE } from "../aerial/pose-limits.ts";
import { TOUCH_M } from "../scene/clearance.ts";
import type { CompiledQuestion } from "./compile-question.ts";
import { codeOf, type Finding, fails, leavesOpen, MOST_MISS, shortBy, UNTOLD } from "./finding.ts";
import { type NearThings, nearThings } from "./near-things.ts";
import { type PoseFamily, poseFamily } from "./pose-family.ts";
import { poseGapToRated, ratedAt } from "./rating-steps.ts";
import { emptyBox } from "./tilted-box.ts";
import { demandLookup, NOT_HELD } from "./tip-demand-at.ts";

const TOO_NEAR = codeOf("tooNear");
const TOO_LOW = codeOf("tooLow");
const TOO_STEEP = codeOf("tooSteep");
const TOO_SHORT = codeOf("tooShort");
const TOO_LONG = codeOf("tooLong");
const RATING = codeOf("rating");
const NOTHING_HOLDS = codeOf("nothingHolds");
const LADDER_CLEARANCE = codeOf("ladderClearance");
const LADDER_TO_WIRE = codeOf("ladderToWire");
const PLATFORM_CLEARANCE = codeOf("platformClearance");
const PLATFORM_TO_WIRE = codeOf("platformToWire");
const LOAD_WAY = codeOf("loadWay");

/** Misses of elevation are measured against this, rad. */
const UPRIGHT_RAD = Math.PI / 2;

/** Tells how the ladder stands from one place: `at` a place, `toward` a place to hang from, then each height in turn. */
export interface LadderCheck {
  /** The poses looked at: one for each height, highest first. */
  readonly family: PoseFamily;
  /** Goes to a place. What is looked at from there hangs within `spreadM` of the target's middle, between two heights. */
  at(x: number, y: number, groundZM: number, spreadM: number, lowZM: number, highZM: number): void;
  /** Turns the ladder toward a place. False if no pose can hang the point there: `finding` then says why. */
  toward(pointX: number, pointY: number, heights: Float64Array, finding: Finding): boolean;
  /**
   * Notes what speaks against one of the poses. Stops once it misses by `finding.enough` or more: what is noted then is
   * only enough to tell that.
   */
  pose(i: number, finding: Finding): void;
  /** Resultant over what may be used of the rated load at a pose that has been noted; −1 where it cannot be told. */
  used(i: number): number;
  /** Clearance beyond what is asked for at a pose, m, at most `clearanceCountedM`; if it is not above `least`, any such value. */
  spare(i: number, least: number): number;
}

/**
 * Can the ladder reach from here to there, is it rated for what hangs on it, and does it clear everything?
 *
 * The ladder is the box of `ladderSolid`, a platform that of `platformSolid`; both exact to rounding. What does not depend on the height is worked out
 * once for all heights over one place: the ladder's upright plane, and where each obstacle's part near it begins and ends.
 *
 * @param ratingMissedBy what tells how far a pose misses its rating: the load it lacks, or the way to a pose that is rated for it.
 *   The load changes by steps, so between two poses of one band that both lack a little it does not tell which is nearer to passing.
 */
export function ladderCheck(compiled: CompiledQuestion, ratingMissedBy: "load" | "pose" = "load"): LadderCheck {
  const { question, obstacles, wires, rating, demand, unknownWire } = compiled;
  const { device, ladderClearanceM, ratedFactor, clearanceCountedM } = question;
  const { platform } = device;
  const hasPlatform = device.kind === "platform" && platform !== null;
  const halfDepth = device.beamDepthM / 2;
  const halfWidth = device.beamWidthM / 2;
  const askedM = ladderClearanceM ?? 0;
  /** What touches is too near, whatever is asked for. */
  const wanted = Math.max(askedM, TOUCH_M);
  /** Which of the things near come close to one pose, and how far the ladder is at most from each of them. */
  const close = new Int32Array(obstacles.count);
  let closeCount = 0;
  /** The last that a pose over this place was plainly struck by: likely the next is as well. */
  let struck = -1;
  const atMost = new Float64Array(obstacles.count);
  const family = poseFamily(compiled);
  const near: NearThings = nearThings(compiled, family);
  const ladder = {
    ...emptyBox(),
    vMin: -halfWidth,
    vMax: halfWidth,
    nMin: -halfDepth,
    nMax: halfDepth,
  };
  const cage = emptyBox();
  if (hasPlatform) {
    cage.vMin = -platform.widthM / 2;
    cage.vMax = platform.widthM / 2;
    cage.nMin = -platform.floorDropM;
    cage.nMax = platform.railHeightM - platform.floorDropM;
    cage.sMin = -platform.backM;
    cage.sMax = platform.forwardM;
  }
  const lookup = demand && demandLookup(demand);
  const usedAt = new Float64Array(compiled.heights.length);
  let aimedAt: Float64Array = new Float64Array(0);
  let gathered = false;
  let lookedRound = false;
  /** Within what the point hangs from here. */
  let spread = 0;
  let low = 0;
  let high = 0;

  function toward(pointX: number, pointY: number, heights: Float64Array, finding: Finding): boolean {
    gathered = false;
    aimedAt = heights;
    if (family.aim(pointX, pointY, heights)) {
      lookup?.toward(family.frame.sin, family.frame.cos);
      return true;
    }
    const { radiusM, leastRadiusM } = family;
    fails(finding, TOO_NEAR, radiusM, leastRadiusM, shortBy(radiusM, leastRadiusM), -1);
    return false;
  }

  function reach(i: number, finding: Finding): void {
    const elevation = family.elevationRad[i] as number;
    const length = family.lengthM[i] as number;
    const { elevationMinRad, elevationMaxRad, lengthMinM, lengthMaxM } = device;
    if (length > lengthMaxM + POSE_TOLERANCE) fails(finding, TOO_LONG, length, lengthMaxM, length / lengthMaxM - 1, -1);
    if (length < lengthMinM - POSE_TOLERANCE)
      fails(finding, TOO_SHORT, length, lengthMinM, 1 - length / lengthMinM, -1);
    if (elevation > elevationMaxRad + POSE_TOLERANCE) {
      fails(finding, TOO_STEEP, elevation, elevationMaxRad, (elevation - elevationMaxRad) / UPRIGHT_RAD, -1);
    }
    if (elevation < elevationMinRad - POSE_TOLERANCE) {
      fails(finding, TOO_LOW, elevation, elevationMinRad, (elevationMinRad - elevation) / UPRIGHT_RAD, -1);
    }
  }

  /** Resultant at the tip, N; `UNTOLD` where not known, `NOT_HELD` where nothing holds the load. */
  const demandAt = (i: number): number =>
    lookup ? lookup.at(family.elevationRad[i] as number, aimedAt[i] as number) : UNTOLD;

  const allowedAt = (i: number): number => {
    const rated = ratedAt(rating, family.elevationRad[i] as number, family.lengthM[i] as number);
    return rated < 0 ? UNTOLD : rated * ratedFactor;
  };

  function load(i: number, finding: Finding): void {
    const needed = demandAt(i);
    usedAt[i] = UNTOLD;
    const height = aimedAt[i] as number;
    const elevation = family.elevationRad[i] as number;
    const steepest = lookup ? lookup.steepest(height) : Number.MAX_VALUE;
    if (needed === NOT_HELD || steepest === NOT_HELD) {
      const heldFrom = lookup?.heldAbove(elevation, height) ?? null;
      const miss = heldFrom === null ? MOST_MISS : (heldFrom - height) / device.lengthMaxM;
      fails(finding, NOTHING_HOLDS, height, heldFrom ?? UNTOLD, Math.max(1e-9, miss), -1);
      return;
    }
    if (elevation > steepest) fails(finding, LOAD_WAY, elevation, steepest, (elevation - steepest) / UPRIGHT_RAD, -1);
    const allowed = allowedAt(i);
    if (needed < 0 || allowed < 0) {
      leavesOpen(finding, RATING, needed, allowed, -1);
      return;
    }
    usedAt[i] = allowed > 0 ? needed / allowed : 0;
    if (needed > allowed) fails(finding, RATING, needed, allowed, ratingMiss(i, needed, allowed), -1);
  }

  function ratingMiss(i: number, needed: number, allowed: number): number {
    if (ratingMissedBy === "load") return allowed > 0 ? needed / allowed - 1 : MOST_MISS;
    const pose = { elevationRad: family.elevationRad[i] as number, lengthM: family.lengthM[i] as number };
    return Math.max(1e-9, poseGapToRated(rating, pose, needed / ratedFactor, device.lengthMaxM));
  }

  function setBoxes(i: number): void {
    ladder.z0 = family.pivotZM;
    ladder.cos = family.cos[i] as number;
    ladder.sin = family.sin[i] as number;
    ladder.sMax = family.lengthM[i] as number;
    cage.u0 = ladder.sMax * ladder.cos;
    cage.z0 = ladder.z0 + ladder.sMax * ladder.sin;
  }

  function pose(i: number, finding: Finding): void {
    reach(i, finding);
    load(i, finding);
    if (finding.miss >= finding.enough) return;
    gather();
    setBoxes(i);
    if (isPlainlyStruck(finding)) return;
    for (let n = 0; n < closeCount; n++) {
      clearOf(close[n] as number, finding);
      if (finding.miss >= finding.enough) return;
    }
    for (let k = 0; k < near.wireCount; k++) {
      clearOfWire(k, finding);
      if (finding.miss >= finding.enough) return;
    }
    if (unknownWire >= 0) leavesOpen(finding, LADDER_TO_WIRE, UNTOLD, UNTOLD, unknownWire);
    if (ladderClearanceM === null && obstacles.count > 0) leavesOpen(finding, LADDER_CLEARANCE, UNTOLD, UNTOLD, -1);
  }

  function gather(): void {
    if (gathered) return;
    if (!lookedRound) near.standAt(spread, low, high);
    lookedRound = true;
    if (near.gather()) struck = -1;
    gathered = true;
  }

  /**
   * Looks over all obstacles by what takes little: which come near the ladder or platform at all, and whether one is plainly so
   * near that nothing more need be known.
   */
  function isPlainlyStruck(finding: Finding): boolean {
    if (struck >= 0 && isStruckBy(struck, finding)) return true;
    closeCount = 0;
    for (let k = 0; k < near.count; k++) {
      if (near.restBelow(k, ladder, hasPlatform ? cage : null, wanted)) break;
      if (isStruckBy(k, finding)) {
        struck = k;
        return true;
      }
      if ((atMost[k] as number) < Number.MAX_VALUE || (hasPlatform && near.comesWithin(k, cage, false, wanted)))
        close[closeCount++] = k;
    }
    return false;
  }

  function isStruckBy(k: number, finding: Finding): boolean {
    atMost[k] = Number.MAX_VALUE;
    if (!near.comesWithin(k, ladder, false, wanted)) return false;
    const most = near.apartAtMost(k, ladder);
    atMost[k] = most;
    if (most >= wanted || shortBy(most, askedM) < finding.enough) return false;
    fails(finding, LADDER_CLEARANCE, most, askedM, shortBy(most, askedM), near.thing[k] as number);
    return true;
  }

  function clearOf(k: number, finding: Finding): void {
    const thing = near.thing[k] as number;
    const most = atMost[k] as number;
    if (most < Number.MAX_VALUE) {
      const squared = most === 0 ? 0 : near.apartSquared(k, ladder, wanted * wanted);
      if (squared < wanted * wanted) {
        const found = Math.sqrt(squared);
        fails(finding, LADDER_CLEARANCE, found, askedM, shortBy(found, askedM), thing);
      }
    }
    if (hasPlatform && near.comesWithin(k, cage, false, wanted)) {
      const squared = near.apartSquared(k, cage, wanted * wanted);
      if (squared < wanted * wanted) {
        const found = Math.sqrt(squared);
        fails(finding, PLATFORM_CLEARANCE, found, askedM, shortBy(found, askedM), thing);
      }
    }
  }

  function clearOfWire(k: number, finding: Finding): void {
    const piece = near.wire[k] as number;
    const required = wires.requiredM[piece] as number;
    const asked = Math.max(0, required);
    const wanted = Math.max(asked, TOUCH_M);
    const wire = wires.wire[piece] as number;
    const byLadder = near.wireSquared(k, ladder, wanted * wanted);
    if (byLadder < wanted * wanted) {
      const found = Math.sqrt(byLadder);
      fails(finding, LADDER_TO_WIRE, found, asked, shortBy(found, asked), wire);
    }
    if (!hasPlatform) return;
    const byCage = near.wireSquared(k, cage, wanted * wanted);
    if (byCage < wanted * wanted) {
      const found = Math.sqrt(byCage);
      fails(finding, PLATFORM_TO_WIRE, found, asked, shortBy(found, asked), wire);
    }
  }

  function spare(i: number, least: number): number {
    gather();
    setBoxes(i);
    let spareM = clearanceCountedM;
    for (let k = 0; k < near.count && spareM > least; k++) {
      if (near.restBelow(k, ladder, hasPlatform ? cage : null, askedM + spareM)) break;
      if (near.comesWithin(k, ladder, true, askedM + spareM)) {
        spareM = Math.min(spareM, near.apartAtMost(k, ladder) - askedM);
        if (spareM <= least) return spareM;
        spareM = Math.sqrt(near.apartSquared(k, ladder, (askedM + spareM) ** 2)) - askedM;
      }
      if (hasPlatform && near.comesWithin(k, cage, true, askedM + spareM))
        spareM = Math.sqrt(near.apartSquared(k, cage, (askedM + spareM) ** 2)) - askedM;
    }
    for (let k = 0; k < near.wireCount && spareM > least; k++) {
      const asked = Math.max(0, wires.requiredM[near.wire[k] as number] as number);
      spareM = Math.sqrt(near.wireSquared(k, ladder, (asked + spareM) ** 2)) - asked;
      if (hasPlatform) spareM = Math.sqrt(near.wireSquared(k, cage, (asked + spareM) ** 2)) - asked;
    }
    return spareM;
  }

  return {
    family,
    at(x, y, groundZM, spreadM, lowZM, highZM) {
      family.standAt(x, y, groundZM);
      lookedRound = false;
      spread = spreadM;
      low = lowZM;
      high = highZM;
    },
    toward,
    pose,
    used: (i) => usedAt[i] as number,
    spare,
  };
}
