import { TOUCH_M } from "../scene/clearance.ts";
import { boxToPrismSquared } from "./box-to-prism.ts";
import type { CompiledQuestion } from "./compile-question.ts";
import { cutMiddle, cutStrip, type Span } from "./cut-outline.ts";
import { emptyEnds, endsOf, type FamilyEnds } from "./family-ends.ts";
import { emptyExtent, extentOf, turnInto } from "./flat-outlines.ts";
import type { PoseFamily } from "./pose-family.ts";
import { segmentToBoxSquared, spanGap, type TiltedBox } from "./tilted-box.ts";

/** The obstacles and wires that could matter to a family of poses, seen in its plane. Changes in place. */
export interface NearThings {
  /** How many obstacles, and of each its index in the question. */
  count: number;
  readonly thing: Int32Array;
  /** How many straight parts of wires, and of each its index among the pieces. */
  wireCount: number;
  readonly wire: Int32Array;
  /** Looks round for a place to stand; the point is hung within `spreadM` of the target's middle, between two heights. */
  standAt(spreadM: number, lowZM: number, highZM: number): void;
  /** Brings what is near into the plane of the family as it is aimed now, for all heights between those two; once for a place. False where it is there already. */
  gather(): boolean;
  /**
   * Could a box come within a distance of the obstacle's part within reach to either side: of what keeps the clearance asked
   * for, or (`counted`) all clearance that counts? Not, where its sides part the two by as much.
   */
  comesWithin(k: number, box: TiltedBox, counted: boolean, distanceM: number): boolean;
  /** Do all obstacles from the `k`th on lie so far below ladder and platform? They are in order along the ladder, the nearest to the vehicle first. */
  restBelow(k: number, ladder: TiltedBox, cage: TiltedBox | null, distanceM: number): boolean;
  /** A distance, m, that the ladder is at most from an obstacle that it could come near: from its cut in the middle of the plane, and from points of it nearest to that. */
  apartAtMost(k: number, ladder: TiltedBox): number;
  /** The distance itself, squared, m²; at most `beyond`. */
  apartSquared(k: number, box: TiltedBox, beyond: number): number;
  wireSquared(k: number, box: TiltedBox, beyond: number): number;
}

export function nearThings(compiled: CompiledQuestion, family: PoseFamily): NearThings {
  const { question, obstacles, wires, wireReachM } = compiled;
  const { device, hungFrom, target, clearanceCountedM } = question;
  const platform = device.kind === "platform" ? device.platform : null;
  const halfDepth = device.beamDepthM / 2;
  const beamHalf = device.beamWidthM / 2;
  const halfWidth = Math.max(beamHalf, (platform?.widthM ?? 0) / 2);
  const askedM = (question.ladderClearanceM ?? 0) + TOUCH_M;
  const countedM = askedM + clearanceCountedM;
  const aroundM = Math.max(halfDepth, platform?.forwardM ?? 0, platform?.backM ?? 0);
  /** No part of ladder or platform reaches further than this beyond the line from turntable to target. */
  const overhangM =
    halfWidth +
    halfDepth +
    Math.abs(device.pivotSetbackM) +
    Math.max(platform?.forwardM ?? 0, platform?.backM ?? 0) +
    Math.abs(hungFrom?.alongM ?? 0) +
    Math.abs(hungFrom?.lateralM ?? 0) +
    Math.abs(hungFrom?.dropM ?? 0);

  const { outlines, bottomZ, topZ } = obstacles;
  const u = new Float64Array(outlines.x.length);
  const v = new Float64Array(outlines.x.length);
  const column = (): Float64Array => new Float64Array(obstacles.count);
  /** Is it seen in the plane of the family, or told by the circle round it alone so far? */
  const seen = new Uint8Array(obstacles.count);
  /** Where the part within reach to either side begins and ends along u, or the circle does: for what is asked, for what counts. */
  const [askedFrom, askedTo, countedFrom, countedTo] = [column(), column(), column(), column()];
  /** How far it lies to one side of ladder and platform, m ≥ 0. */
  const aside = column();
  /** The cut in the middle of the plane; from > to where there is none. */
  const [cutFrom, cutTo] = [column(), column()];
  /** Where points of it lie that are nearest to the side of the ladder, and how far that is. */
  const [pointFrom, pointTo, besideM] = [column(), column(), column()];
  const ends: FamilyEnds = emptyEnds();
  const span: Span = { from: 0, to: 0 };
  const extent = emptyExtent();
  const crossings = new Float64Array(outlines.x.length);
  const wireU = new Float64Array(2 * wires.count);
  const wireV = new Float64Array(2 * wires.count);
  /** Where all from one on begin along u at the least, and how high they stand at the most. */
  const [restFrom, restTopZ] = [column(), column()];
  /** What is round here, in order along the line to the target, and how far along that. */
  const round: number[] = [];
  const along: number[] = [];
  /** Between what heights the point hangs from where the vehicle stands now. */
  let lowZM = 0;
  let highZM = 0;
  /** What is gathered now is of this bearing from there, and of all heights; `false`: of the family's alone, or of nothing. */
  const gatheredFor = { ofAll: false, sin: 0, cos: 0, radiusM: 0 };
  let roundWires: readonly number[] = [];

  const near: NearThings = {
    count: 0,
    thing: new Int32Array(obstacles.count),
    wireCount: 0,
    wire: new Int32Array(wires.count),
    standAt,
    gather,
    comesWithin,
    restBelow,
    apartAtMost,
    apartSquared: (k, box, beyond) => {
      const i = near.thing[k] as number;
      const from = outlines.start[i] as number;
      const to = outlines.start[i + 1] as number;
      return boxToPrismSquared(box, u, v, from, to, bottomZ[i] as number, topZ[i] as number, beyond);
    },
    wireSquared: (k, box, beyond) => {
      const a = 2 * (near.wire[k] as number);
      const b = a + 1;
      return segmentToBoxSquared(
        box,
        wireU[a] as number,
        wireV[a] as number,
        wires.z[a] as number,
        wireU[b] as number,
        wireV[b] as number,
        wires.z[b] as number,
        beyond,
      );
    },
  };

  function standAt(spreadM: number, low: number, high: number): void {
    lowZM = low;
    highZM = high;
    gatheredFor.ofAll = false;
    const { x, y } = family.turntable;
    const west = Math.min(x, target.xM);
    const east = Math.max(x, target.xM);
    const south = Math.min(y, target.yM);
    const north = Math.max(y, target.yM);
    const reach = overhangM + spreadM + countedM;
    round.length = 0;
    along.length = 0;
    if (obstacles.index) {
      const alongX = target.xM - x;
      const alongY = target.yM - y;
      const length = Math.sqrt(alongX * alongX + alongY * alongY);
      const bounds = boundsOfAll(length, spreadM);
      for (const i of obstacles.index.search(west - reach, south - reach, east + reach, north + reach)) {
        const dx = (obstacles.midX[i] as number) - x;
        const dy = (obstacles.midY[i] as number) - y;
        const radius = obstacles.radius[i] as number;
        const ahead = length > 0 ? (dx * alongX + dy * alongY) / length : 0;
        const beside = length > 0 ? Math.abs(dx * alongY - dy * alongX) / length : 0;
        const short = length > 0 ? ahead - Math.min(length, Math.max(0, ahead)) : Math.sqrt(dx * dx + dy * dy);
        if (short * short + beside * beside > (reach + radius) ** 2) continue;
        if (bounds) {
          // However the ladder is turned toward the target, the obstacle lies between these along it.
          const from =
            Math.min(ahead, ahead * bounds.cosTurn) - beside * bounds.sinTurn - radius + device.pivotSetbackM;
          const to = Math.max(ahead, ahead * bounds.cosTurn) + beside * bounds.sinTurn + radius + device.pivotSetbackM;
          if (clearOfAll(bounds.ends, from, to, bottomZ[i] as number, topZ[i] as number)) continue;
        }
        let place = round.length;
        for (; place > 0 && (along[place - 1] as number) > ahead; place--) {
          round[place] = round[place - 1] as number;
          along[place] = along[place - 1] as number;
        }
        round[place] = i;
        along[place] = ahead;
      }
    }
    const far = overhangM + spreadM + wireReachM + clearanceCountedM + TOUCH_M;
    roundWires = wires.index ? wires.index.search(west - far, south - far, east + far, north + far) : [];
  }

  /** What all poses from here lie between, and how far the ladder may turn off the line to the target's middle; `null` too near to tell. */
  function boundsOfAll(lengthM: number, spreadM: number) {
    const lateral = Math.abs(hungFrom?.lateralM ?? 0);
    const offset = Math.abs(hungFrom?.alongM ?? 0) + Math.abs(hungFrom?.dropM ?? 0);
    const nearest = lengthM - spreadM;
    const levelMin = nearest - lateral + device.pivotSetbackM - offset;
    const levelMax = lengthM + spreadM + device.pivotSetbackM + offset;
    if (nearest <= lateral || levelMin <= offset) return null;
    const turn = Math.asin(spreadM / lengthM) + Math.asin(lateral / nearest);
    if (turn > Math.PI / 4) return null;
    const tilt = Math.asin(offset / levelMin);
    const low = lowZM - family.pivotZM - offset;
    const high = highZM - family.pivotZM + offset;
    const lowest = Math.atan2(low, low > 0 ? levelMax : levelMin) - tilt;
    const highest = Math.atan2(high, high > 0 ? levelMin : levelMax) + tilt;
    const ends: FamilyEnds = {
      sinLow: Math.sin(lowest),
      cosLow: Math.cos(lowest),
      sinHigh: Math.sin(highest),
      cosHigh: Math.cos(highest),
      tipUMin: levelMin - offset,
      tipUMax: levelMax + offset,
      tipZMin: lowZM - 2 * offset,
      tipZMax: highZM + 2 * offset,
      uMin: Math.min(0, levelMin - offset) - aroundM,
      uMax: levelMax + offset + aroundM,
    };
    return { ends, sinTurn: Math.sin(turn), cosTurn: Math.cos(turn) };
  }

  function gather(): boolean {
    const { frame, radiusM } = family;
    if (
      gatheredFor.ofAll &&
      gatheredFor.sin === frame.sin &&
      gatheredFor.cos === frame.cos &&
      gatheredFor.radiusM === radiusM
    )
      return false;
    // One height of several is followed by others over the same place.
    const bounds = family.count > 1 || lowZM === highZM ? null : boundsOfAll(radiusM, 0);
    gatheredFor.ofAll = bounds !== null;
    gatheredFor.sin = frame.sin;
    gatheredFor.cos = frame.cos;
    gatheredFor.radiusM = radiusM;
    if (bounds === null) endsOf(family, aroundM, ends);
    else Object.assign(ends, bounds.ends);
    near.count = 0;
    for (const i of round) {
      const east = (obstacles.midX[i] as number) - frame.x;
      const north = (obstacles.midY[i] as number) - frame.y;
      const radius = obstacles.radius[i] as number;
      if (Math.abs(east * frame.cos - north * frame.sin) - radius > halfWidth + countedM) continue;
      const ahead = east * frame.sin + north * frame.cos;
      if (clearOfAll(ends, ahead - radius, ahead + radius, bottomZ[i] as number, topZ[i] as number)) continue;
      const k = near.count++;
      near.thing[k] = i;
      seen[k] = 0;
      askedFrom[k] = countedFrom[k] = ahead - radius;
      askedTo[k] = countedTo[k] = ahead + radius;
      aside[k] = 0;
    }
    let least = Number.MAX_VALUE;
    let highest = -Number.MAX_VALUE;
    for (let k = near.count - 1; k >= 0; k--) {
      least = Math.min(least, askedFrom[k] as number);
      highest = Math.max(highest, topZ[near.thing[k] as number] as number);
      restFrom[k] = least;
      restTopZ[k] = highest;
    }
    near.wireCount = 0;
    for (const piece of roundWires) {
      const a = 2 * piece;
      turnInto(family.frame, wires.x, wires.y, a, a + 2, wireU, wireV);
      const beyond = Math.max(0, wires.requiredM[piece] as number) + clearanceCountedM + TOUCH_M;
      const beside = spanGap(wireV[a] as number, wireV[a + 1] as number, -halfWidth, halfWidth);
      const off = spanGap(wireU[a] as number, wireU[a + 1] as number, ends.uMin, ends.uMax);
      if (beside * beside + off * off < beyond * beyond) near.wire[near.wireCount++] = piece;
    }
    return true;
  }

  /** Brings an obstacle into the plane of the family. */
  function see(k: number): void {
    seen[k] = 1;
    const i = near.thing[k] as number;
    const from = outlines.start[i] as number;
    const to = outlines.start[i + 1] as number;
    turnInto(family.frame, outlines.x, outlines.y, from, to, u, v);
    extentOf(u, v, from, to, extent);
    cutStrip(u, v, from, to, extent, halfWidth + countedM, span);
    countedFrom[k] = span.from;
    countedTo[k] = span.to;
    cutStrip(u, v, from, to, extent, halfWidth + askedM, span);
    askedFrom[k] = span.from;
    askedTo[k] = span.to;
    aside[k] = Math.max(0, extent.vMin - halfWidth, -halfWidth - extent.vMax);
    besideM[k] = Math.max(0, extent.vMin - beamHalf, -beamHalf - extent.vMax);
    if (besideM[k] === 0) cutStrip(u, v, from, to, extent, beamHalf, span);
    else span.from = span.to = u[leastAside(v, from, to)] as number;
    pointFrom[k] = span.from;
    pointTo[k] = span.to;
    cutMiddle(u, v, from, to, extent, crossings, span);
    cutFrom[k] = span.from;
    cutTo[k] = span.to;
  }

  /**
   * Does every pose of the family keep all clearance that counts from this part of an obstacle?
   *
   * How far a corner lies below or above the ladder's line is a sine of the elevation: where it is enough at the lowest
   * and the highest elevation, it is enough between.
   */
  function clearOfAll(ends: FamilyEnds, from: number, to: number, bottom: number, top: number): boolean {
    if (from - ends.uMax >= countedM || ends.uMin - to >= countedM) return true;
    if (platform) {
      // The platform stays level: a gap along u or z in all poses is enough.
      const { backM, forwardM, floorDropM, railHeightM } = platform;
      const gap = Math.max(
        from - (ends.tipUMax + forwardM),
        ends.tipUMin - backM - to,
        bottom - (ends.tipZMax + railHeightM - floorDropM),
        ends.tipZMin - floorDropM - top,
      );
      if (gap < countedM) return false;
    }
    if (ends.cosLow < 0 || ends.cosHigh < 0) return false;
    const low = bottom - family.pivotZM;
    const high = top - family.pivotZM;
    const enough = halfDepth + countedM;
    const { sinLow, cosLow, sinHigh, cosHigh } = ends;
    return (
      (Math.min(from * sinLow, to * sinLow) - high * cosLow >= enough &&
        Math.min(from * sinHigh, to * sinHigh) - high * cosHigh >= enough) ||
      (low * cosLow - Math.max(from * sinLow, to * sinLow) >= enough &&
        low * cosHigh - Math.max(from * sinHigh, to * sinHigh) >= enough)
    );
  }

  function comesWithin(k: number, box: TiltedBox, counted: boolean, distanceM: number): boolean {
    if (apartAtLeast(k, box, counted) >= distanceM) return false;
    if (seen[k] === 1) return true;
    see(k);
    return apartAtLeast(k, box, counted) < distanceM;
  }

  function restBelow(k: number, ladder: TiltedBox, cage: TiltedBox | null, distanceM: number): boolean {
    const { sin, cos, nMin, z0 } = ladder;
    if (sin < 0 || cos < 0) return false;
    const top = restTopZ[k] as number;
    if (cage !== null && cage.z0 + cage.nMin - top < distanceM) return false;
    return (restFrom[k] as number) * sin - (top - z0) * cos + nMin >= distanceM;
  }

  /** A distance, m, that a box is at least from the obstacle's part within reach to either side. */
  function apartAtLeast(k: number, box: TiltedBox, counted: boolean): number {
    const from = (counted ? countedFrom[k] : askedFrom[k]) as number;
    const to = (counted ? countedTo[k] : askedTo[k]) as number;
    if (from > to) return Number.MAX_VALUE;
    const { cos, sin, sMin, sMax, nMin, nMax } = box;
    const i = near.thing[k] as number;
    const uFrom = from - box.u0;
    const uTo = to - box.u0;
    const zFrom = (bottomZ[i] as number) - box.z0;
    const zTo = (topZ[i] as number) - box.z0;
    // The box beside the upright and level rectangle, then the rectangle beside the tilted box.
    const uLow = Math.min(sMin * cos, sMax * cos) - Math.max(nMin * sin, nMax * sin);
    const uHigh = Math.max(sMin * cos, sMax * cos) - Math.min(nMin * sin, nMax * sin);
    const zLow = Math.min(sMin * sin, sMax * sin) + Math.min(nMin * cos, nMax * cos);
    const zHigh = Math.max(sMin * sin, sMax * sin) + Math.max(nMin * cos, nMax * cos);
    const sLow = Math.min(uFrom * cos, uTo * cos) + Math.min(zFrom * sin, zTo * sin);
    const sHigh = Math.max(uFrom * cos, uTo * cos) + Math.max(zFrom * sin, zTo * sin);
    const nLow = Math.min(zFrom * cos, zTo * cos) - Math.max(uFrom * sin, uTo * sin);
    const nHigh = Math.max(zFrom * cos, zTo * cos) - Math.min(uFrom * sin, uTo * sin);
    const inPlane = Math.max(
      0,
      nMin - nHigh,
      nLow - nMax,
      sLow - sMax,
      sMin - sHigh,
      uFrom - uHigh,
      uLow - uTo,
      zFrom - zHigh,
      zLow - zTo,
    );
    const beside = aside[k] as number;
    return beside > 0 ? Math.sqrt(inPlane * inPlane + beside * beside) : inPlane;
  }

  function apartAtMost(k: number, ladder: TiltedBox): number {
    const { cos, sin, sMax } = ladder;
    const i = near.thing[k] as number;
    const low = (bottomZ[i] as number) - ladder.z0;
    const high = (topZ[i] as number) - ladder.z0;
    const from = cutFrom[k] as number;
    const to = cutTo[k] as number;
    if (from <= to && cos > LEAST_COS) {
      const tan = sin / cos;
      const a = Math.max(from, 0);
      const b = Math.min(to, sMax * cos);
      if (a <= b && Math.max(a * tan, b * tan) >= low && Math.min(a * tan, b * tan) <= high) return 0;
    }
    const first = pointFrom[k] as number;
    const last = pointTo[k] as number;
    const inPlane = Math.min(
      squaredToLadder(ladder, first, high),
      squaredToLadder(ladder, last, high),
      squaredToLadder(ladder, first, low),
      squaredToLadder(ladder, last, low),
    );
    const beside = besideM[k] as number;
    return Math.sqrt(inPlane + beside * beside);
  }

  return near;
}

const LEAST_COS = 1e-6;

/** How far is a point of the plane from the ladder, squared, m²? `z` above the pivot. */
function squaredToLadder(ladder: TiltedBox, u: number, z: number): number {
  const s = u * ladder.cos + z * ladder.sin;
  const n = z * ladder.cos - u * ladder.sin;
  const beyond = Math.max(0, -s, s - ladder.sMax);
  const aside = Math.max(0, ladder.nMin - n, n - ladder.nMax);
  return beyond * beyond + aside * aside;
}

/** Which of the points `from` up to `to` lies least to the side? */
function leastAside(v: Float64Array, from: number, to: number): number {
  let least = from;
  for (let k = from + 1; k < to; k++) if (Math.abs(v[k] as number) < Math.abs(v[least] as number)) least = k;
  return least;
}
