import { applyCatenary } from "./apply-catenary.ts";
import { applyRopes } from "./apply-ropes.ts";
import { type BlockedNodes, blockedNodes } from "./blocked-nodes.ts";
import { fallsWithoutEnd } from "./falls-without-end.ts";
import type { NetworkState } from "./network-state.ts";
import { type BalanceTolerance, EXACT, newtonBalance } from "./newton-balance.ts";
import { relaxBalance } from "./relax-balance.ts";
import { settleFrictionless } from "./settle-frictionless.ts";

/** How a search from anywhere ended. */
export type Finding = { iterations: number } & (
  | { readonly kind: "balanced" }
  | { readonly kind: "nothing-holds"; readonly node: string }
  | { readonly kind: "two-blocked"; readonly nodes: BlockedNodes }
  | { readonly kind: "falls"; readonly line: number }
  | { readonly kind: "lost" }
);

/** Over the size of the network: first and last rounding of corners, and how near two nodes count as meeting when all else fails. */
const ROUNDEST = 1e-2;
const SHARPEST = 1e-8;
const MEETING = 1e-5;
/** First softening: the stretch under all loads together, over the size of the network. */
const SOFTEST = 0.1;
/** By how much a stage is stiffer and sharper than the one before, where all goes well. */
const STRIDE = 30;

/**
 * Finds the balance of a network from any start, by way of softer lines and rounded corners.
 *
 * Every line gets an added compliance, and every segment of length d counts as √(d² + s²) long. So softened, the network is
 * easy to settle; then both are taken back in stages to nothing, each stage starting from the last. Without sheave
 * loss each stage goes down a convex energy, and the way cannot be missed. With it, the soft network is settled without loss
 * first, then brought into balance with it, and the stages are followed by Newton steps; where these go astray
 * the stage is relaxed, and where that fails the stride is shortened.
 * At the last rounding, two nodes held together by a taut segment are reported as meeting.
 */
export function findBalance(state: NetworkState): Finding {
  const { net } = state;
  const conserves = !net.hasFriction && !net.hasRopeWeight;
  const sharpest = SHARPEST * net.sizeM;
  const least = leastCompliance(state);
  const kept = Float64Array.from(state.place);
  const keptForeseen = new Float64Array(state.foreseen.length);
  const keptPull = new Float64Array(state.foreseenPull.length);
  let iterations = 0;

  const keep = () => {
    kept.set(state.place);
    keptForeseen.set(state.foreseen);
    keptPull.set(state.foreseenPull);
  };
  const goBack = () => {
    state.place.set(kept);
    state.foreseen.set(keptForeseen);
    state.foreseenPull.set(keptPull);
  };
  const newton = (limit: number, tolerance: BalanceTolerance) => {
    const run = newtonBalance(state, limit, tolerance);
    iterations += run.iterations;
    return run.converged;
  };
  const balance = (tolerance: number) => {
    if (newton(25, { aim: tolerance, stalled: 0, atLast: 0 })) return true;
    goBack();
    const run = relaxBalance(state, 400, tolerance);
    iterations += run.iterations;
    return run.converged;
  };

  state.softening = (SOFTEST * net.sizeM) / Math.max(net.forceN, 1e-9);
  state.smoothing = ROUNDEST * net.sizeM;
  freezeRopeWeight(state, true);
  const holds = settleFrictionless(state, 1e-3);
  if (conserves && !holds) return { kind: "nothing-holds", node: fallsWithoutEnd(state, 10) ?? "", iterations };
  if (!conserves) {
    if (!holds) state.place.set(kept);
    state.foreseen.fill(0);
    keep();
    if (!balance(1e-4)) {
      const node = fallsWithoutEnd(state, 10);
      return node === undefined ? { kind: "lost", iterations } : { kind: "nothing-holds", node, iterations };
    }
  }
  keep();

  let stride = STRIDE;
  while (state.softening > 0 || state.smoothing > sharpest) {
    const { softening, smoothing } = state;
    state.softening = softening < 0.3 * least ? 0 : softening / stride;
    state.smoothing = Math.max(smoothing / stride, sharpest);
    const tolerance = state.softening === 0 && state.smoothing === sharpest ? 1e-7 : 1e-4;
    if (conserves) {
      freezeRopeWeight(state, false);
      if (!settleFrictionless(state, tolerance))
        return { kind: "nothing-holds", node: fallsWithoutEnd(state, 10) ?? "", iterations };
      continue;
    }
    if (balance(tolerance)) {
      keep();
      stride = Math.min(STRIDE, stride * stride);
      continue;
    }
    const node = fallsWithoutEnd(state, 10);
    if (node !== undefined) return { kind: "nothing-holds", node, iterations };
    goBack();
    state.softening = softening;
    state.smoothing = smoothing;
    stride = Math.sqrt(stride);
    if (stride >= 1.5) continue;
    applyRopes(state, false);
    const near = blockedNodes(state, MEETING * net.sizeM);
    return near ? { kind: "two-blocked", nodes: near, iterations } : { kind: "lost", iterations };
  }

  const blocked = blockedNodes(state, 30 * sharpest);
  if (blocked) return { kind: "two-blocked", nodes: blocked, iterations };
  const near = blockedNodes(state, MEETING * net.sizeM);
  state.smoothing = 0;
  if (newton(50, { ...EXACT, atLast: 9e-7 })) {
    const met = blockedNodes(state, 0);
    return met ? { kind: "two-blocked", nodes: met, iterations } : { kind: "balanced", iterations };
  }
  if (near) return { kind: "two-blocked", nodes: near, iterations };
  goBack();
  const falling = fallingLine(state);
  return falling < 0 ? { kind: "lost", iterations } : { kind: "falls", line: falling, iterations };
}

/** A line that its tension cannot hold up where the nodes are; −1 for none. */
function fallingLine(state: NetworkState): number {
  const { sags, tensionN } = state.net;
  return sags.findIndex(
    (sag, line) => sag === 1 && tensionN[line]! >= 0 && applyCatenary(state, line, false) === "falls",
  );
}

/** Compliance of the stiffest line, L0/EA, m/N; infinite where none is held by length. */
function leastCompliance(state: NetworkState): number {
  const { lengthM, stiffnessN } = state.net;
  let least = Infinity;
  for (let line = 0; line < lengthM.length; line++) {
    if (lengthM[line]! > 0) least = Math.min(least, lengthM[line]! / stiffnessN[line]!);
  }
  return least;
}

/**
 * Takes the weight of each rope segment as it is here, for a search that holds it still. At the `start`, lines held by a tension
 * get none: from a start far off they would be so long that they fall by their own weight.
 */
function freezeRopeWeight(state: NetworkState, start: boolean): void {
  const { net, unstretched } = state;
  if (!net.hasRopeWeight) return;
  applyRopes(state, false);
  if (!start) return;
  for (let line = 0; line < net.lineNames.length; line++) {
    if (net.tensionN[line]! >= 0) unstretched.fill(0, net.firstSlot[line]!, net.firstSlot[line + 1]!);
  }
}
