/**
 * Tension at the first node of a line held by its length, N: the root T of Σ lᵢ / (1 + rᵢ·T/EA) = L0.
 *
 * Each segment i of stretched length lᵢ carries rᵢ·T and holds lᵢ / (1 + rᵢT/EA) of unstretched rope; these add up to
 * the rope there is. Without sheave loss (all rᵢ = 1) this is T = EA (Σl − L0) / L0.
 * A rope longer than the way has no tension; here the tangent at zero is returned, which is negative: the caller
 * decides whether the line is slack, and a smooth function is what a Newton step needs.
 *
 * The left side falls and is convex in T, so Newton's method from T = 0 climbs to the root from below and cannot miss.
 *
 * @param stretchedM,ratio per segment, places `first` to `end` − 1: stretched length, m; tension over first tension, > 0
 * @param lengthM unstretched length L0, m, > 0
 * @param stiffnessN EA, N, > 0
 */
export function lineTension(
  stretchedM: Float64Array,
  ratio: Float64Array,
  first: number,
  end: number,
  lengthM: number,
  stiffnessN: number,
): number {
  let total = 0;
  let alike = true;
  for (let q = first; q < end; q++) {
    total += stretchedM[q]!;
    if (ratio[q] !== 1) alike = false;
  }
  const excess = total - lengthM;
  if (alike) return (stiffnessN * excess) / lengthM;
  let strain = 0;
  for (let iteration = 0; iteration < 60; iteration++) {
    let misfit = -lengthM;
    let slope = 0;
    for (let q = first; q < end; q++) {
      const stretch = 1 + ratio[q]! * strain;
      const held = stretchedM[q]! / stretch;
      misfit += held;
      slope += (held * ratio[q]!) / stretch;
    }
    if (!(slope > 0)) break;
    const step = misfit / slope;
    strain += step;
    // The error left is about the square of the step.
    if (excess <= 0 || Math.abs(step) <= 1e-9 * (1 + strain)) break;
  }
  return stiffnessN * strain;
}
