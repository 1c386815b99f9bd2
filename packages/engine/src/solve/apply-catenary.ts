import {
  type CatenaryForm,
  energyOfForm,
  formOfPull,
  formOfSpan,
  type HangingRope,
  spanOfForm,
  stiffnessOfForm,
} from "../rope/catenary-form.ts";
import { formOfTension } from "../rope/catenary-form-of-tension.ts";
import { levelWayOf, stiffnessInSite } from "../rope/catenary-plane.ts";
import { effectiveStiffness, type NetworkState } from "./network-state.ts";
import { ROUNDING } from "./newton-step.ts";

/**
 * How a line that sags stands. `hangs`: in its catenary. `on-its-way`: its pull is the one that the last step foresaw, not yet the one it
 * has in this place. `straight`: to be taken as a straight line, as it is while rope weight is held still. `falls`: the same, because so
 * little tension cannot hold the rope up here. Forces are added in the first two; the second and last are no answer.
 */
export type Hanging = "hangs" | "on-its-way" | "straight" | "falls";

/** What may still be missing of a foreseen pull that is taken for the rope's own, as a share of it; what this leaves is about its square. */
const MET = 1e-8;

/** What a line that sags does to its two nodes: adds to `state.force` and, if asked, to `state.tangent`, exactly. */
export function applyCatenary(state: NetworkState, line: number, withTangent: boolean): Hanging {
  const { net, place, stretched } = state;
  const slot = net.firstSlot[line]!;
  const a = 3 * net.through[slot]!;
  const b = 3 * net.through[slot + 1]!;
  const way = [place[b]! - place[a]!, place[b + 1]! - place[a + 1]!, place[b + 2]! - place[a + 2]!] as const;
  stretched[slot] = Math.hypot(...way);
  const hang = net.lengthM[line]! > 0 ? hangByLength : hangByTension;
  return hang(state, line, slot, way, withTangent);
}

type Way = readonly [east: number, north: number, up: number];

/**
 * A rope of given length pulls with p in its middle, where way = c(p), the slope of a convex energy.
 *
 * While a search has foreseen a pull, the pull is read off the tangent there, p + K·(way − c(p)). This is Newton's method on
 * places and pulls together, which a stiff rope does not disturb; a straight line's foreseen tension serves the same end.
 */
function hangByLength(state: NetworkState, line: number, slot: number, way: Way, withTangent: boolean): Hanging {
  const { net, pullSlope } = state;
  const rope = {
    lengthM: net.lengthM[line]!,
    weightNM: net.weightNM[line]!,
    compliancePerN: 1 / effectiveStiffness(state, line),
  };
  const level = levelWayOf(way[0], way[1]);
  const foreseen = state.oneSided ? null : foreseenForm(state, line, rope, way, level.lengthM);
  const form = foreseen ?? formOfSpan(rope, level.lengthM, way[2]);
  if (state.oneSided) state.hangEnergy[line] = energyOfForm(rope, form);
  let { levelN, middleN } = form;
  let met = true;
  if (withTangent || foreseen) {
    const stiffness = stiffnessOfForm(rope, form);
    pullSlope.set(stiffnessInSite(stiffness, level), 9 * line);
    if (foreseen) {
      const { levelM, riseM } = spanOfForm(rope, form);
      const [out, up] = [level.lengthM - levelM, way[2] - riseM];
      const moreLevelN = stiffness.levelNM * out + stiffness.levelOverRiseNM * up;
      const moreUpN = stiffness.riseOverLevelNM * out + stiffness.riseNM * up;
      const rounding = (4 * ROUNDING) / rope.compliancePerN;
      met = Math.hypot(moreLevelN, moreUpN) <= MET * Math.hypot(levelN, middleN) + rounding;
      levelN += moreLevelN;
      middleN += moreUpN;
    }
  }
  const halfN = 0.5 * rope.weightNM * rope.lengthM;
  state.unstretched[slot] = rope.lengthM;
  addPull(state, line, slot, levelN * level.east, levelN * level.north, middleN - halfN, middleN + halfN);
  if (withTangent) {
    const slope = pullSlope.subarray(9 * line, 9 * line + 9);
    addSlopes(state, slot, slope, slope);
  }
  return met ? "hangs" : "on-its-way";
}

/**
 * The rope with the pull that the last step foresaw, turned so that it spans in the direction of the way. Without the turning a step
 * to the side would show as stretch. Null where none is foreseen, or one that would push.
 */
function foreseenForm(
  state: NetworkState,
  line: number,
  rope: HangingRope,
  way: Way,
  levelM: number,
): CatenaryForm | null {
  const { foreseenPull } = state;
  const [x, y, z] = [foreseenPull[3 * line]!, foreseenPull[3 * line + 1]!, foreseenPull[3 * line + 2]!];
  if (!(x * way[0] + y * way[1] + z * way[2] > 0)) return null;
  const levelN = Math.hypot(x, y);
  const span = spanOfForm(rope, formOfPull(rope, levelN, z));
  const turn = Math.atan2(way[2], levelM) - Math.atan2(span.riseM, span.levelM);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const turnedN = levelN * cos - z * sin;
  return turnedN >= 0 ? formOfPull(rope, turnedN, levelN * sin + z * cos) : null;
}

/** A rope with its tension given at the first node. Its pull has a kink where the nodes meet, which `state.smoothing` rounds. */
function hangByTension(state: NetworkState, line: number, slot: number, way: Way, withTangent: boolean): Hanging {
  const { net } = state;
  const stiff = net.stiffnessN[line]!;
  const tensionN = net.tensionN[line]!;
  state.endTension[line] = tensionN;
  if (!state.liveWeight) return "straight";
  const level = levelWayOf(way[0], way[1], state.smoothing);
  const weightNM = net.weightNM[line]!;
  const form = formOfTension(level.lengthM, way[2], tensionN, weightNM, stiff > 0 ? 1 / stiff : 0);
  if (form === null) return "falls";
  const { levelN, upAtAN, upAtBN, overLevelNM, overRiseNM, sideNM } = form;
  state.unstretched[slot] = form.lengthM;
  addPull(state, line, slot, levelN * level.east, levelN * level.north, upAtAN, upAtBN);
  if (withTangent) {
    const slopeOf = (end: 1 | 2) =>
      stiffnessInSite(
        {
          levelNM: overLevelNM[0],
          levelOverRiseNM: overRiseNM[0],
          riseOverLevelNM: overLevelNM[end],
          riseNM: overRiseNM[end],
          sideNM,
        },
        level,
      );
    addSlopes(state, slot, slopeOf(1), slopeOf(2));
  }
  return "hangs";
}

/** Adds a pull toward the last node, its upward part given at both ends. */
function addPull(state: NetworkState, line: number, slot: number, x: number, y: number, upAtA: number, upAtB: number) {
  const { net, force, tension, endTension, pull } = state;
  const a = 3 * net.through[slot]!;
  const b = 3 * net.through[slot + 1]!;
  force[a]! += x;
  force[a + 1]! += y;
  force[a + 2]! += upAtA;
  force[b]! -= x;
  force[b + 1]! -= y;
  force[b + 2]! -= upAtB;
  tension[line] = Math.hypot(x, y, upAtA);
  endTension[line] = Math.hypot(x, y, upAtB);
  pull[3 * line] = x;
  pull[3 * line + 1] = y;
  pull[3 * line + 2] = 0.5 * (upAtA + upAtB);
}

/** Adds the slopes of the pulls at both ends over the way from the first node to the last. */
function addSlopes(state: NetworkState, slot: number, atA: ArrayLike<number>, atB: ArrayLike<number>): void {
  const { net, tangent, size } = state;
  const a = net.freeOfNode[net.through[slot]!]!;
  const b = net.freeOfNode[net.through[slot + 1]!]!;
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const ka = atA[3 * i + j]!;
      const kb = atB[3 * i + j]!;
      if (a >= 0) tangent[(3 * a + i) * size + 3 * a + j]! += ka;
      if (b >= 0) tangent[(3 * b + i) * size + 3 * b + j]! += kb;
      if (a >= 0 && b >= 0) {
        tangent[(3 * a + i) * size + 3 * b + j]! -= ka;
        tangent[(3 * b + i) * size + 3 * a + j]! -= kb;
      }
    }
  }
}
