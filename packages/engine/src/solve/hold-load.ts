import {
  add,
  addScaled,
  distance,
  lengthOf,
  NO_LENGTH,
  norm,
  type SiteVector,
  scale,
  site,
  subtract,
  unit,
  ZERO,
} from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";
import { addRopeStiffness } from "./rope-stiffness.ts";

/** A main line as the load feels it: it pulls toward one point with its share of the common pull. */
export interface HoldingMain {
  readonly toward: SiteVector;
  /** Part of the common pull; the shares make 1. */
  readonly share: number;
}

/** A line held by hand: a steady pull, or (null) whatever holds the load's place. */
export interface HoldingHand {
  readonly toward: SiteVector;
  readonly tensionN: number | null;
}

export interface HoldingPulls {
  /** Sum of the main lines' tensions at the load, N. */
  readonly mainN: number;
  /** Tension of each hand-held line, in order, N. */
  readonly handsN: readonly number[];
  /** Force left over at the load, N; zero where the place can be held. */
  readonly residualN: number;
}

/** Of the load's weight: costs nearer together than this are one. */
const SAME_COST = 1e-9;
/**
 * What a newton pulled by hand costs in newtons left over. A pull that takes less than this part of itself off what is
 * left over works nearly square to the need: two crews against each other would pull many kilonewtons to stop a breath of
 * side wind. That breath is left over instead, and the load hangs a little aside. Planning choice, no source.
 */
const HAND_COST = 0.02;

/**
 * Which pulls hold the load at a wanted place?
 *
 * Finds the non-negative main-line pull (split by the given shares) and hand-held tensions that balance `forceN` at `at`;
 * where several sets do, the one with the smallest pulls by hand; where none does, or only by pulls out of all proportion
 * (`HAND_COST`), the set that leaves the least force over for what it asks of hands. Exact: a basic solution has at most three pulls at work, so every choice of up to three is tried.
 *
 * @param at place of the yoke, site frame, m
 * @param mains at least one
 * @param hands any number; those with a tension given keep it
 * @param forceN everything else that acts on the load (weight, wind), N
 */
export function pullsToHold(
  at: SiteVector,
  mains: readonly HoldingMain[],
  hands: readonly HoldingHand[],
  forceN: SiteVector,
): HoldingPulls {
  const columns = new Array<number>(3).fill(0);
  for (const { toward, share } of mains) addToward(columns, 0, at, toward, share);
  const steady = [forceN[0], forceN[1], forceN[2]];
  for (const { toward, tensionN } of hands) {
    if (tensionN === null) {
      columns.push(0, 0, 0);
      addToward(columns, columns.length - 3, at, toward, 1);
    } else addToward(steady, 0, at, toward, tensionN);
  }
  const best = leastPulls(columns, site(steady[0]!, steady[1]!, steady[2]!));
  let wanted = 1;
  const handsN = hands.map((h) => h.tensionN ?? best.pulls[wanted++]!);
  return { mainN: best.pulls[0]!, handsN, residualN: best.residual };
}

/** Adds a pull of a given size toward a point to three numbers of an array. */
function addToward(sum: number[], from: number, at: SiteVector, toward: SiteVector, size: number): void {
  const x = toward[0] - at[0];
  const y = toward[1] - at[1];
  const z = toward[2] - at[2];
  const length = lengthOf(x, y, z);
  if (!(length > NO_LENGTH)) return;
  sum[from]! += (x / length) * size;
  sum[from + 1]! += (y / length) * size;
  sum[from + 2]! += (z / length) * size;
}

/**
 * Non-negative combination of directions that best cancels a force; among equals the smallest sum of all but the first.
 *
 * @param columns the directions, three numbers each
 */
function leastPulls(columns: readonly number[], force: SiteVector): { pulls: number[]; residual: number } {
  const forceN = norm(force);
  const tolerance = SAME_COST * Math.max(forceN, 1e-12);
  const n = columns.length / 3;
  fillGrams(columns, force);
  let best: readonly number[] = [];
  const bestPulls = [0, 0, 0];
  let bestResidual = forceN;
  let bestCost = forceN;
  for (const chosen of choices(n)) {
    if (!leastSquares(chosen, n)) continue;
    let isPush = false;
    let byHand = 0;
    let x = force[0];
    let y = force[1];
    let z = force[2];
    for (let k = 0; k < chosen.length; k++) {
      const c = chosen[k]!;
      const pull = pulls[k]!;
      if (pull < 0) isPush = true;
      x += columns[3 * c]! * pull;
      y += columns[3 * c + 1]! * pull;
      z += columns[3 * c + 2]! * pull;
      if (c > 0) byHand += pull;
    }
    if (isPush) continue;
    const residual = lengthOf(x, y, z);
    const cost = residual + HAND_COST * byHand;
    if (!(cost < bestCost - tolerance)) continue;
    best = chosen;
    for (let k = 0; k < 3; k++) bestPulls[k] = pulls[k]!;
    bestResidual = residual;
    bestCost = cost;
  }
  const found = new Array<number>(n).fill(0);
  for (let k = 0; k < best.length; k++) found[best[k]!] = bestPulls[k]!;
  return { pulls: found, residual: bestResidual };
}

const known: (readonly (readonly number[])[])[] = [];

/** Every choice of 1 to 3 of `count` things; worked out once for each count. */
function choices(count: number): readonly (readonly number[])[] {
  const before = known[count];
  if (before) return before;
  let sets: readonly (readonly number[])[] = [[]];
  for (let i = 0; i < count; i++) sets = [...sets, ...sets.filter((s) => s.length < 3).map((s) => [...s, i])];
  const found = sets.filter((s) => s.length > 0);
  known[count] = found;
  return found;
}

// Used again for each choice: this is run through many times a moment.
/** Products of the directions with each other, row by row, and of each with what it is to cancel. */
const grams: number[] = [];
const rights: number[] = [];
const matrix = new Float64Array(9);
const pulls = new Float64Array(3);

function fillGrams(columns: readonly number[], force: SiteVector): void {
  const n = columns.length / 3;
  for (let a = 0; a < n; a++) {
    const x = columns[3 * a]!;
    const y = columns[3 * a + 1]!;
    const z = columns[3 * a + 2]!;
    rights[a] = -(x * force[0] + y * force[1] + z * force[2]);
    for (let b = 0; b < n; b++)
      grams[a * n + b] = x * columns[3 * b]! + y * columns[3 * b + 1]! + z * columns[3 * b + 2]!;
  }
}

/**
 * Fills in the pulls along one to three of the directions that leave the least of −force; false where the directions do not
 * differ.
 */
function leastSquares(chosen: readonly number[], n: number): boolean {
  for (let a = 0; a < 3; a++) {
    const row = chosen[a] ?? -1;
    for (let b = 0; b < 3; b++) {
      const column = chosen[b] ?? -1;
      matrix[3 * a + b] = row >= 0 && column >= 0 ? grams[row * n + column]! : a === b ? 1 : 0;
    }
  }
  const right = (a: number): number => (a < chosen.length ? rights[chosen[a]!]! : 0);
  return solveDense3(matrix, right(0), right(1), right(2), pulls);
}

export type Hanging =
  | { readonly ok: true; readonly at: SiteVector; readonly mainN: number; readonly residualN: number }
  | { readonly ok: false; readonly code: "nothing-holds" | "not-converged" };

/**
 * Where does the load really hang at a given height, with the main lines' shares and the pulls by hand as they are?
 *
 * Newton's method on the three equations of equilibrium in the two level coordinates and the main-line pull, with an
 * analytic Jacobian and halved steps. Frictionless at the load. `nothing-holds`: the height is not below the sheaves, or
 * the main lines would have to push.
 *
 * @param start where the search begins; its height is the height kept
 * @returns the place, the main-line pull and the force left over, N (below 1e-9 of the weight)
 */
export function hangAtHeight(
  start: SiteVector,
  mains: readonly HoldingMain[],
  hands: readonly Required<{ toward: SiteVector; tensionN: number }>[],
  forceN: SiteVector,
): Hanging {
  const z = start[2];
  if (mains.every((m) => m.toward[2] <= z)) return { ok: false, code: "nothing-holds" };
  const size = Math.max(norm(forceN), ...hands.map((h) => h.tensionN), 1e-9);
  let [x, y] = start;
  let pull = size;
  let now = balance(site(x, y, z), pull, mains, hands, forceN);
  for (let iteration = 0; iteration < 60; iteration++) {
    const left = norm(now.force);
    if (left <= 1e-11 * size) break;
    if (!solveDense3(now.jacobian, -now.force[0], -now.force[1], -now.force[2], step))
      return { ok: false, code: "not-converged" };
    let part = 1;
    let next = now;
    for (let halving = 0; halving < 30; halving++, part /= 2) {
      next = balance(site(x + part * step[0], y + part * step[1], z), pull + part * step[2], mains, hands, forceN);
      if (norm(next.force) < left) break;
    }
    if (!(norm(next.force) < left)) break;
    x += part * step[0];
    y += part * step[1];
    pull += part * step[2];
    now = next;
  }
  const residualN = norm(now.force);
  if (!(residualN <= 1e-9 * size)) return { ok: false, code: "not-converged" };
  if (pull < 0) return { ok: false, code: "nothing-holds" };
  return { ok: true, at: site(x, y, z), mainN: pull, residualN };
}

/** The step that is being taken: level, m, and in the main-line pull, N. */
const step: [number, number, number] = [0, 0, 0];

/** Force left over at the load and its derivatives by x, y and the main-line pull (row by row). */
function balance(
  at: SiteVector,
  pull: number,
  mains: readonly HoldingMain[],
  hands: readonly { toward: SiteVector; tensionN: number }[],
  forceN: SiteVector,
): { force: SiteVector; jacobian: Float64Array } {
  let force = forceN;
  let perPull = ZERO;
  const j = new Float64Array(9);
  const rope = (toward: SiteVector, tension: number): SiteVector => {
    const u = unit(subtract(toward, at));
    addRopeStiffness(j, u[0], u[1], u[2], 0, -tension / Math.max(distance(toward, at), 1e-9));
    return u;
  };
  for (const m of mains) {
    const u = rope(m.toward, pull * m.share);
    perPull = addScaled(perPull, u, m.share);
  }
  for (const h of hands) force = add(force, scale(rope(h.toward, h.tensionN), h.tensionN));
  for (let row = 0; row < 3; row++) j[row * 3 + 2] = perPull[row] ?? 0;
  return { force: addScaled(force, perPull, pull), jacobian: j };
}
