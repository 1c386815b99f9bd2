import { tanhLag } from "../numerics/tanh-lag.ts";

/** A rope whose ends are no farther apart than this, level and over its length, hangs plumb. */
const PLUMB = 1e-150;
/** Beyond this sinh is past the largest number; no rope that is not plumb gets there. */
const DEEPEST = 700;

/**
 * How deep does a hanging rope of known length dip? Returns its dip λ, from 0 (straight) to Infinity (folded, plumb).
 *
 * λ is half the difference of asinh(V/H) at the two ends, V and H being the plumb and level parts of the tension. With
 * L the unstretched length, x and z the level and plumb way between the ends, and e the own strain wL/2EA, the two
 * equations of the elastic catenary become one, whose left side rises with λ from 0 without end:
 *
 *   [x sinh λ / (L(λ + e))]² + [z / (L(1 + e coth λ))]² = 1
 *
 * Newton's method on its logarithm over ln λ, in a bracket.
 *
 * @param ownStrain e ≥ 0: stretch of the rope when it hangs plumb by itself, over its length; 0 for one that does not
 *   stretch, which must be longer than the way between its ends
 * Source: Irvine, Cable Structures, 1981, elastic catenary (from memory); the form with one unknown is derived in
 * `docs/theory/catenary.md`.
 */
export function dipOfLength(levelM: number, riseM: number, lengthM: number, ownStrain: number): number {
  const x = levelM / lengthM;
  const z = Math.abs(riseM) / lengthM;
  const e = ownStrain;
  if (!(x > PLUMB)) return z > 1 + e ? Math.atanh(e / (z - 1)) : Number.POSITIVE_INFINITY;
  let dip = firstDip(x, z, e);
  let low = 0;
  let high = DEEPEST;
  for (let iteration = 0; iteration < 100; iteration++) {
    const t = Math.tanh(dip);
    const a = ((x * Math.sinh(dip)) / (dip + e)) ** 2;
    const b = ((z * t) / (t + e)) ** 2;
    const miss = 0.5 * Math.log(a + b);
    if (miss > 0) high = dip;
    else low = dip;
    const slope =
      (dip * ((a * (tanhLag(dip) + e)) / (t * (dip + e)) + (b * e * (1 - t) * (1 + t)) / (t * (t + e)))) / (a + b);
    const step = miss / slope;
    const next = dip * Math.exp(-step);
    // What is left after a step is about its square; a miss of 1e-15 is rounding.
    if (Math.abs(step) < 1e-8 || Math.abs(miss) < 1e-15) return next;
    if (next > low && next < high) dip = next;
    else dip = low > 0 ? Math.sqrt(low * high) : dip / 16;
  }
  return dip;
}

/** A guess at the dip: of a shallow rope, where the equation is a cubic, or of a deep one, where z hardly stretches it. */
function firstDip(x: number, z: number, e: number): number {
  const d = Math.hypot(x, z);
  const a = (x * x) / (6 * d);
  const b = d - 1;
  const most = Math.cbrt(e / a);
  // Above the root of a·λ³ + b·λ = e, where Newton's method goes down to it without fail.
  let shallow = b > 0 ? Math.min(e / b, most) : Math.sqrt(-b / a) + most;
  for (let i = 0; i < 3; i++) shallow -= (a * shallow ** 3 + b * shallow - e) / (3 * a * shallow * shallow + b);
  if (shallow < 1.5) return shallow;
  const level = 1 - (z / (1 + e)) ** 2;
  if (!(level > 0)) return Math.min(z > 1 + e ? Math.atanh(e / (z - 1)) : 20, DEEPEST / 2);
  const ratio = Math.sqrt(level) / x;
  let deep = 2;
  for (let i = 0; i < 4; i++) deep = Math.asinh(ratio * (deep + e));
  return deep;
}
