import { lengthOf } from "../../base/vector.ts";
import type { CompiledLine, CompiledSystem, Rider } from "./compiled-system.ts";
import { pullChain, riseAbout } from "./rope-chain.ts";
import { setLine } from "./set-geometry.ts";

/** What may be left over of the forces on a rider, N, and as a part of the highest of them. */
const LEFT_N = 1e-9;
const LEFT_SHARE = 1e-11;
/** The same where rounding keeps it from more. */
const LEFT_AT_LAST = 1e-9;
/** A step this short changes nothing, m. */
const LEAST_STEP_M = 1e-13;
const LONGEST_STEP_M = 0.5;
const MOST_ROUNDS = 40;
const MOST_TRIED = 25;
/** Holds a rider that nothing pulls where it is, N/m: between slack ropes its place is open. */
const KEEPS_NM = 1e-6;
const LEAST_LENGTH_M = 1e-6;
/** A load that has gone less far shows nothing of how the rider follows it, m. */
const SHOWS_M = 1e-5;

/**
 * Puts a pulley without mass where the ropes on it balance, and leaves those ropes with their tensions.
 *
 * Newton's method on the force, from where the pulley should be if it goes on following the load as it lately has. Straight
 * ropes that only pull have an energy that is convex in the pulley's place, so there is one balance, and a step that goes well
 * beyond it is drawn back to where the force along it is small.
 *
 * @returns false if no balance was found
 */
export function placeRider(rig: CompiledSystem, rider: Rider): boolean {
  const { positionM } = rig;
  const at = 3 * rider.node;
  if (rider.pinned >= 0) return readPull(rig, rider);
  for (let c = 0; c < 3; c++) wasM[c] = positionM[at + c]!;
  goWithLoad(rig, rider);
  const agreed = balance(rig, rider);
  learn(rig, rider);
  return agreed;
}

/** Puts the rider where the ropes on it balance, from where it is. False if no balance was found. */
function balance(rig: CompiledSystem, rider: Rider): boolean {
  const { positionM } = rig;
  const at = 3 * rider.node;
  let agreed = readPull(rig, rider);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const left = lengthOf(force[0]!, force[1]!, force[2]!);
    if (left <= LEFT_N + LEFT_SHARE * most) return agreed;
    // Along a rope that is nearly straight hardly anything holds it: no step goes much farther than this.
    for (let c = 0; c < 3; c++) slope[c]! += left / LONGEST_STEP_M;
    factor();
    solve();
    const dx = step[0]!;
    const dy = step[1]!;
    const dz = step[2]!;
    if (lengthOf(dx, dy, dz) <= LEAST_STEP_M) return agreed;
    // What still pulls along the step, by how much of it is gone: below 0 the balance was passed.
    let [low, high] = [0, 0];
    let before = force[0]! * dx + force[1]! * dy + force[2]! * dz;
    const enough = 0.5 * before;
    let after = 0;
    let part = 1;
    for (let tried = 0; tried < MOST_TRIED; tried++) {
      positionM[at]! += part * dx;
      positionM[at + 1]! += part * dy;
      positionM[at + 2]! += part * dz;
      agreed = readPull(rig, rider);
      const pull = force[0]! * dx + force[1]! * dy + force[2]! * dz;
      if (Math.abs(pull) <= enough || (pull > 0 && high === 0)) break;
      positionM[at]! -= part * dx;
      positionM[at + 1]! -= part * dy;
      positionM[at + 2]! -= part * dz;
      if (pull < 0) {
        high = part;
        after = pull;
      } else {
        low = part;
        before = pull;
      }
      const share = Math.min(0.9, Math.max(0.1, before / (before - after)));
      part = low + share * (high - low);
    }
  }
  return agreed && lengthOf(force[0]!, force[1]!, force[2]!) <= LEFT_AT_LAST * most;
}

/** Moves the rider on with the load, as it has lately followed it. */
function goWithLoad({ positionM, load }: CompiledSystem, { node, follows, loadM }: Rider): void {
  for (let c = 0; c < 3; c++) {
    wentM[c] = positionM[3 * load.node + c]! - loadM[c]!;
    loadM[c] = positionM[3 * load.node + c]!;
  }
  for (let c = 0; c < 3; c++)
    goesM[c] = follows[3 * c]! * wentM[0]! + follows[3 * c + 1]! * wentM[1]! + follows[3 * c + 2]! * wentM[2]!;
  if (lengthOf(goesM[0]!, goesM[1]!, goesM[2]!) > LONGEST_STEP_M) goesM.fill(0);
  for (let c = 0; c < 3; c++) positionM[3 * node + c]! += goesM[c]!;
}

/** Takes what it was off by into how it follows, along the way the load went (Broyden's update). */
function learn({ positionM }: CompiledSystem, { node, follows }: Rider): void {
  const squared = wentM[0]! * wentM[0]! + wentM[1]! * wentM[1]! + wentM[2]! * wentM[2]!;
  if (squared < SHOWS_M * SHOWS_M) return;
  for (let c = 0; c < 3; c++) {
    const off = (positionM[3 * node + c]! - wasM[c]! - goesM[c]!) / squared;
    for (let d = 0; d < 3; d++) follows[3 * c + d]! += off * wentM[d]!;
  }
}

// Of the rider looked at last; kept here so that nothing is made anew in each round.
/** Force on it, N, and the highest tension at it. */
const force = new Float64Array(3);
let most = 0;
/** How that force falls as the rider moves, N/m: xx, yy, zz, xy, xz, yz; and its Cholesky factor. */
const slope = new Float64Array(6);
const root = new Float64Array(6);
const step = new Float64Array(3);
/** Where it was, how far the load went, and how far it was moved on with it, m. */
const wasM = new Float64Array(3);
const wentM = new Float64Array(3);
const goesM = new Float64Array(3);

/** Sets the lines of a rider anew, and reads their force on it and its slope. */
function readPull(rig: CompiledSystem, { node, steadyN, lines }: Rider): boolean {
  let agreed = true;
  for (let c = 0; c < 3; c++) {
    force[c] = steadyN[c]!;
    slope[c] = KEEPS_NM;
    slope[3 + c] = 0;
  }
  most = 0;
  for (let k = 0; k < lines.length; k++) {
    const line = lines[k]!;
    if (line.gone) continue;
    setLine(rig, line);
    if (!pullChain(line.chain, line.rateMS)) agreed = false;
    const { through, chain } = line;
    for (let i = 1; i < through.length; i++) {
      const tension = chain.tensionN[i - 1]!;
      if (through[i] !== node || tension === 0) continue;
      most = Math.max(most, tension);
      addSides(line, i, tension);
      force[0]! += tension * ends[0]!;
      force[1]! += tension * ends[1]!;
      force[2]! += tension * ends[2]!;
      addSquare(riseAbout(chain, i - 1), ends[0]!, ends[1]!, ends[2]!);
    }
  }
  return agreed;
}

/** The sum of the directions in which a rope leaves a rider. */
const ends = new Float64Array(3);

/** Of the rope on both sides of the rider, its i-th place: `ends`, and how its turning adds to the slope. */
function addSides({ along, chain }: CompiledLine, i: number, tension: number): void {
  for (let c = 0; c < 3; c++) ends[c] = 0;
  for (let side = 0; side < 2; side++) {
    const j = i - 1 + side;
    if (j >= chain.lengthM.length) break;
    const away = side === 0 ? -1 : 1;
    const x = away * along[3 * j]!;
    const y = away * along[3 * j + 1]!;
    const z = away * along[3 * j + 2]!;
    ends[0]! += x;
    ends[1]! += y;
    ends[2]! += z;
    const across = tension / Math.max(chain.lengthM[j]!, LEAST_LENGTH_M);
    addSquare(-across, x, y, z);
    slope[0]! += across;
    slope[1]! += across;
    slope[2]! += across;
  }
}

/** Adds s·e eᵀ to the slope. */
function addSquare(s: number, x: number, y: number, z: number): void {
  slope[0]! += s * x * x;
  slope[1]! += s * y * y;
  slope[2]! += s * z * z;
  slope[3]! += s * x * y;
  slope[4]! += s * x * z;
  slope[5]! += s * y * z;
}

/** Cholesky's factor of the slope. */
function factor(): void {
  const a = Math.sqrt(slope[0]!);
  const b = slope[3]! / a;
  const c = slope[4]! / a;
  const d = Math.sqrt(Math.max(slope[1]! - b * b, KEEPS_NM));
  const e = (slope[5]! - b * c) / d;
  root[0] = a;
  root[1] = d;
  root[2] = Math.sqrt(Math.max(slope[2]! - c * c - e * e, KEEPS_NM));
  root[3] = b;
  root[4] = c;
  root[5] = e;
}

/** The step that the factored slope makes of the force. */
function solve(): void {
  const p = force[0]! / root[0]!;
  const q = (force[1]! - root[3]! * p) / root[1]!;
  const r = (force[2]! - root[4]! * p - root[5]! * q) / root[2]!;
  step[2] = r / root[2]!;
  step[1] = (q - root[5]! * step[2]!) / root[1]!;
  step[0] = (p - root[3]! * step[1]! - root[4]! * step[2]!) / root[0]!;
}
