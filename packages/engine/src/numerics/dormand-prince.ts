/** Writes dy/dt at `y` into `into`. */
export type Derivative = (y: Float64Array, into: Float64Array) => void;

/** One step at a time through y' = f(y), with an estimate of its error and a curve between its ends. */
export interface DormandPrince {
  /** State at the start of the last step tried, and at its end. */
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Derivative at the start of the last step tried, and at its end. */
  readonly slopeFrom: Float64Array;
  readonly slopeTo: Float64Array;
  /** Begins at a state, or begins anew after it has jumped. */
  readonly begin: (y: Float64Array) => void;
  /** Tries a step of this length from where it stands: error over what is allowed, so 1 or less is good. */
  readonly attempt: (step: number, tolerance: number) => number;
  /** Goes on from the end of the last step tried. */
  readonly advance: () => void;
  /** The state at a part of the last step tried, 0 to 1, to fourth order. */
  readonly within: (part: number, into: Float64Array) => void;
}

const A = [
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** Fifth order less fourth. */
const E = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
const D = [
  -12715105075 / 11282082432,
  0,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
];

/**
 * Explicit Runge–Kutta steps of fifth order with a fourth-order error estimate.
 *
 * The error is the root mean square over the components, each over `tolerance`·max(1, |y|). Six evaluations a step, a
 * seventh when it begins anew. Coefficients: Dormand and Prince (1980); the curve between: Hairer, Nørsett and Wanner,
 * Solving Ordinary Differential Equations I, 2nd ed., II.6 (from memory; the order of both is shown by tests).
 */
export function dormandPrince(size: number, derivative: Derivative): DormandPrince {
  let from = new Float64Array(size);
  let to = new Float64Array(size);
  const k = Array.from({ length: 7 }, () => new Float64Array(size));
  const at = new Float64Array(size);
  let length = 0;

  return {
    get from() {
      return from;
    },
    get to() {
      return to;
    },
    get slopeFrom() {
      return k[0]!;
    },
    get slopeTo() {
      return k[6]!;
    },
    begin(y) {
      from.set(y);
      derivative(from, k[0]!);
    },
    attempt(step, tolerance) {
      length = step;
      for (let stage = 1; stage <= 6; stage++) {
        const row = A[stage - 1]!;
        const target = stage === 6 ? to : at;
        target.set(from);
        for (let j = 0; j < stage; j++) {
          const weight = step * row[j]!;
          const slope = k[j]!;
          if (weight !== 0) for (let i = 0; i < size; i++) target[i]! += weight * slope[i]!;
        }
        derivative(target, k[stage]!);
      }
      at.fill(0);
      for (let j = 0; j < 7; j++) {
        const weight = step * E[j]!;
        const slope = k[j]!;
        if (weight !== 0) for (let i = 0; i < size; i++) at[i]! += weight * slope[i]!;
      }
      let squares = 0;
      for (let i = 0; i < size; i++) {
        const part = at[i]! / (tolerance * Math.max(1, Math.abs(from[i]!), Math.abs(to[i]!)));
        squares += part * part;
      }
      return Math.sqrt(squares / Math.max(1, size));
    },
    advance() {
      [from, to] = [to, from];
      [k[0], k[6]] = [k[6]!, k[0]!];
    },
    within(part, into) {
      const rest = 1 - part;
      for (let i = 0; i < size; i++) {
        const change = to[i]! - from[i]!;
        const bend = length * k[0]![i]! - change;
        let last = 0;
        for (let j = 0; j < 7; j++) last += D[j]! * k[j]![i]!;
        into[i] =
          from[i]! +
          part * (change + rest * (bend + part * (change - length * k[6]![i]! - bend + rest * length * last)));
      }
    },
  };
}

/** The next step's length after one of this length and error (over what is allowed). */
export const nextStep = (step: number, error: number): number =>
  step * Math.min(5, Math.max(0.2, 0.9 * Math.max(error, 1e-10) ** -0.2));
