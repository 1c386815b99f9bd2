/**
 * Which part of the tension passes a sheave: low side over high side, in (0, 1].
 *
 * An efficiency is quoted for a half turn (180°); over a wrap θ the loss follows the capstan form η^(θ/π).
 * Where the loss is in the bearing rather than in bending the rope, 2T·sin(θ/2) would fit better; the two meet at 180°.
 *
 * @param efficiency η of a 180° wrap, in (0, 1]
 * @param wrapRad angle through which the rope turns, rad, 0 or more; 0 is straight through
 * Source: capstan equation (Euler–Eytelwein) with µ = −ln(η)/π.
 */
export const sheaveRatio = (efficiency: number, wrapRad: number): number => efficiency ** (wrapRad / Math.PI);

/** Coefficient of friction µ whose half turn (180°) has this efficiency, in (0, 1]: η = e^(−µπ). */
export const frictionOfEfficiency = (efficiency: number): number => -Math.log(efficiency) / Math.PI;

/** Capstan equation: high side over low side, 1 or more, for a friction coefficient and a wrap in rad. Euler–Eytelwein. */
export const capstanRatio = (friction: number, wrapRad: number): number => Math.exp(friction * wrapRad);

/**
 * Force, N, that a rope puts on the sheave it turns over.
 *
 * @param tensionInN,tensionOutN tension of the two sides, N
 * @param wrapRad angle through which the rope turns, rad; 0 is straight through, π is back along itself
 */
export const sheaveResultant = (tensionInN: number, tensionOutN: number, wrapRad: number): number =>
  Math.sqrt(Math.max(0, tensionInN ** 2 + tensionOutN ** 2 - 2 * tensionInN * tensionOutN * Math.cos(wrapRad)));

/**
 * Mechanical advantage of a simple tackle of `parts` ropes at the load, haul end leaving the travelling block:
 * 1 + η + η² + … (tension method, each sheave a 180° wrap).
 *
 * @param parts ropes that carry the load, whole number, 1 or more
 * @param efficiency of each sheave, in (0, 1]
 */
export function tackleAdvantage(parts: number, efficiency: number): number {
  let advantage = 0;
  let tension = 1;
  for (let i = 0; i < parts; i++) {
    advantage += tension;
    tension *= efficiency;
  }
  return advantage;
}
