import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import type { Failure } from "../base/outcome.ts";
import { distance, type SiteVector, site } from "../base/vector.ts";
import { arithmeticGeometricMean } from "../numerics/arithmetic-geometric-mean.ts";

/** A load held aside on its main lines, about to be let go. */
export interface HeldAside {
  /** Where the yoke is held, site frame, m. */
  readonly held: SiteVector;
  /** Where it hangs at rest on the main lines alone, m. */
  readonly rest: SiteVector;
  /** From where the ropes turn (tip sheaves) to the middle of the load's mass, at rest, m, above 0. */
  readonly ropeM: number;
  /** Weight of the load, N, 0 or more. */
  readonly weightN: number;
  /** m/s², above 0; left out: 9.80665. */
  readonly gravityMS2?: number;
}

export interface Swing {
  readonly ok: true;
  /** Point the load swings about: `ropeM` plumb above its place of rest. */
  readonly pivot: SiteVector;
  /** Angle from plumb at which it is let go, rad, 0 to π/2; the swing goes as far to the other side. */
  readonly amplitudeRad: number;
  /** The same as a level distance from plumb, m. */
  readonly amplitudeM: number;
  /** How far below the place of letting go the lowest point is, m. */
  readonly dropM: number;
  /** Time there and back, s: for this amplitude, and for small ones. */
  readonly periodS: number;
  readonly smallPeriodS: number;
  /** Speed at the lowest point, m/s. */
  readonly topSpeedMS: number;
  /** Sum of the main lines' tensions as it is let go, W cos θ₀, and at the lowest point, W(3 − 2 cos θ₀), N. */
  readonly firstTensionN: number;
  readonly mostTensionN: number;
  /** What the swing adds at the lowest point to the weight, N. */
  readonly extraTensionN: number;
  /** Where it comes to rest for a moment on the other side, m: the place of letting go, on the rope's own length, mirrored about plumb. */
  readonly farthest: SiteVector;
  /** How much farther from the pivot than `ropeM` it was held, m. Below 0 the ropes are slack there, and the load first drops. */
  readonly beyondRopeM: number;
}

/** `bad-number`: a length, weight or place that none can be. `above-pivot`: held level with the pivot or higher, where the ropes go slack. */
export type SwingFailure = Failure<"bad-number" | "above-pivot">;

/**
 * How does a load swing when the tether or tagline that holds it aside is let go?
 *
 * Simple pendulum of any amplitude below a right angle: one mass on a rope of fixed length about a fixed point, no drag
 * of the air, no stretch, a line let go at once and weightless. The real swing is no wider; the ladder's give, a load that
 * tilts on its bridle, and lines from tips far apart are not in it.
 *
 * @returns period by the complete elliptic integral, T = 2π√(L/g) / agm(1, cos(θ₀/2)), to rounding
 * Source: energy and Newton's second law; the period as in textbooks of mechanics (from memory). `docs/theory/swing.md`.
 */
export function swing({
  held,
  rest,
  ropeM,
  weightN,
  gravityMS2 = STANDARD_GRAVITY_MS2,
}: HeldAside): Swing | SwingFailure {
  const numbers = [...held, ...rest, ropeM, weightN, gravityMS2];
  if (!(numbers.every(Number.isFinite) && ropeM > 0 && weightN >= 0 && gravityMS2 > 0)) return failure("bad-number");
  const pivot = site(rest[0], rest[1], rest[2] + ropeM);
  const [east, north] = [held[0] - pivot[0], held[1] - pivot[1]];
  const aside = Math.hypot(east, north);
  const below = pivot[2] - held[2];
  if (!(below > 0)) return failure("above-pivot");
  const amplitudeRad = Math.atan2(aside, below);
  const [cos, half] = [Math.cos(amplitudeRad), Math.sin(amplitudeRad / 2)];
  // 1 − cos θ₀, exact for small angles.
  const fall = 2 * half * half;
  const amplitudeM = ropeM * Math.sin(amplitudeRad);
  const share = aside > 0 ? amplitudeM / aside : 0;
  const smallPeriodS = 2 * Math.PI * Math.sqrt(ropeM / gravityMS2);
  const found: Swing = {
    ok: true,
    pivot,
    amplitudeRad,
    amplitudeM,
    dropM: ropeM * fall,
    periodS: smallPeriodS / arithmeticGeometricMean(1, Math.cos(amplitudeRad / 2)),
    smallPeriodS,
    topSpeedMS: Math.sqrt(2 * gravityMS2 * ropeM * fall),
    firstTensionN: weightN * cos,
    mostTensionN: weightN * (1 + 2 * fall),
    extraTensionN: 2 * weightN * fall,
    farthest: site(pivot[0] - share * east, pivot[1] - share * north, pivot[2] - ropeM * cos),
    beyondRopeM: distance(held, pivot) - ropeM,
  };
  return Object.values(found)
    .flat()
    .every((value) => value === true || Number.isFinite(value))
    ? found
    : failure("bad-number");
}

const HINTS: Readonly<Record<SwingFailure["code"], string>> = {
  "bad-number": "Rope length and gravity must be above 0, the weight 0 or more, and every place a number.",
  "above-pivot": "The load is held as high as the point it would swing about. There the main lines are slack.",
};

const failure = (code: SwingFailure["code"]): SwingFailure => ({ ok: false, code, where: "load", hint: HINTS[code] });
