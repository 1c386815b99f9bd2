import {
  add,
  addScaled,
  distance,
  dot,
  norm,
  type SiteVector,
  scale,
  site,
  subtract,
  unit,
  ZERO,
} from "../base/vector.ts";
import { solveDense3 } from "../numerics/solve-dense-3.ts";

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
  const main = mains.reduce((sum, m) => addScaled(sum, unit(subtract(m.toward, at)), m.share), ZERO);
  const steady = hands.reduce(
    (sum, h) => (h.tensionN === null ? sum : addScaled(sum, unit(subtract(h.toward, at)), h.tensionN)),
    forceN,
  );
  const wanted = hands
    .map((h, i) => ({ i, u: unit(subtract(h.toward, at)) }))
    .filter(({ i }) => hands[i]?.tensionN === null);
  const columns = [main, ...wanted.map((w) => w.u)];
  const best = leastPulls(columns, steady);
  const handsN = hands.map((h) => h.tensionN ?? 0);
  for (const [k, w] of wanted.entries()) handsN[w.i] = best.pulls[k + 1] ?? 0;
  return { mainN: best.pulls[0] ?? 0, handsN, residualN: best.residual };
}

/** Non-negative combination of directions that best cancels a force; among equals the smallest sum of all but the first. */
function leastPulls(columns: readonly SiteVector[], force: SiteVector): { pulls: readonly number[]; residual: number } {
  const forceN = norm(force);
  const tolerance = SAME_COST * Math.max(forceN, 1e-12);
  const n = columns.length;
  const grams = columns.flatMap((u) => columns.map((v) => dot(u, v)));
  const rights = columns.map((u) => -dot(u, force));
  let best = { pulls: [] as readonly number[], chosen: [] as readonly number[], residual: forceN, cost: forceN };
  for (const chosen of choices(n)) {
    const pulls = leastSquares(chosen, grams, rights);
    if (pulls === null || chosen.some((_, k) => pulls[k]! < 0)) continue;
    let left = force;
    let byHand = 0;
    for (const [k, c] of chosen.entries()) {
      left = addScaled(left, columns[c]!, pulls[k]!);
      if (c > 0) byHand += pulls[k]!;
    }
    const residual = norm(left);
    const cost = residual + HAND_COST * byHand;
    if (cost < best.cost - tolerance) best = { pulls, chosen, residual, cost };
  }
  const { pulls, chosen, residual } = best;
  return { pulls: columns.map((_, c) => pulls[chosen.indexOf(c)] ?? 0), residual };
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

/** Pulls along one to three of some directions that leave the least of −force; null where the directions do not differ. */
function leastSquares(
  chosen: readonly number[],
  grams: readonly number[],
  rights: readonly number[],
): readonly [number, number, number] | null {
  const n = rights.length;
  const [i = -1, j = -1, k = -1] = chosen;
  const g = (a: number, b: number): number => (a < 0 || b < 0 ? 0 : grams[a * n + b]!);
  return solveDense3(
    [g(i, i), g(i, j), g(i, k), g(j, i), j < 0 ? 1 : g(j, j), g(j, k), g(k, i), g(k, j), k < 0 ? 1 : g(k, k)],
    [rights[i]!, j < 0 ? 0 : rights[j]!, k < 0 ? 0 : rights[k]!],
  );
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
    const step = solveDense3(now.jacobian, [-now.force[0], -now.force[1], -now.force[2]]);
    if (step === null) return { ok: false, code: "not-converged" };
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

/** Force left over at the load and its derivatives by x, y and the main-line pull (row by row). */
function balance(
  at: SiteVector,
  pull: number,
  mains: readonly HoldingMain[],
  hands: readonly { toward: SiteVector; tensionN: number }[],
  forceN: SiteVector,
): { force: SiteVector; jacobian: number[] } {
  let force = forceN;
  let perPull = ZERO;
  const j = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const rope = (toward: SiteVector, tension: number): SiteVector => {
    const u = unit(subtract(toward, at));
    const stiffness = tension / Math.max(distance(toward, at), 1e-9);
    for (let row = 0; row < 3; row++) {
      for (let column = 0; column < 2; column++) {
        j[row * 3 + column] =
          (j[row * 3 + column] ?? 0) - stiffness * ((row === column ? 1 : 0) - (u[row] ?? 0) * (u[column] ?? 0));
      }
    }
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
