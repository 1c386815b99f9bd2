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

/**
 * Explicit Runge–Kutta steps of fifth order with a fourth-order error estimate.
 *
 * The error is the root mean square over the components, each over `tolerance`·max(1, |y|). Six evaluations a step, a
 * seventh when it begins anew. `lend` gives it its arrays, of zeros. Coefficients: Dormand and Prince (1980); the curve between: Hairer, Nørsett and Wanner,
 * Solving Ordinary Differential Equations I, 2nd ed., II.6 (from memory; the order of both is shown by tests).
 */
export function dormandPrince(
  size: number,
  derivative: Derivative,
  lend: (size: number) => Float64Array = (n) => new Float64Array(n),
): DormandPrince {
  let from = lend(size);
  let to = lend(size);
  let k1 = lend(size);
  let k7 = lend(size);
  const [k2, k3, k4, k5, k6, at] = Array.from({ length: 6 }, () => lend(size)) as Six;
  let length = 0;

  return {
    get from() {
      return from;
    },
    get to() {
      return to;
    },
    get slopeFrom() {
      return k1;
    },
    get slopeTo() {
      return k7;
    },
    begin(y) {
      from.set(y);
      derivative(from, k1);
    },
    attempt(step, tolerance) {
      length = step;
      // Written out, since most of the time of short systems goes here. `h` are weights times the step.
      const h21 = step * (1 / 5);
      for (let i = 0; i < size; i++) at[i] = from[i]! + h21 * k1[i]!;
      derivative(at, k2);
      const h31 = step * (3 / 40);
      const h32 = step * (9 / 40);
      for (let i = 0; i < size; i++) at[i] = from[i]! + h31 * k1[i]! + h32 * k2[i]!;
      derivative(at, k3);
      const h41 = step * (44 / 45);
      const h42 = step * (-56 / 15);
      const h43 = step * (32 / 9);
      for (let i = 0; i < size; i++) at[i] = from[i]! + h41 * k1[i]! + h42 * k2[i]! + h43 * k3[i]!;
      derivative(at, k4);
      const h51 = step * (19372 / 6561);
      const h52 = step * (-25360 / 2187);
      const h53 = step * (64448 / 6561);
      const h54 = step * (-212 / 729);
      for (let i = 0; i < size; i++) at[i] = from[i]! + h51 * k1[i]! + h52 * k2[i]! + h53 * k3[i]! + h54 * k4[i]!;
      derivative(at, k5);
      const h61 = step * (9017 / 3168);
      const h62 = step * (-355 / 33);
      const h63 = step * (46732 / 5247);
      const h64 = step * (49 / 176);
      const h65 = step * (-5103 / 18656);
      for (let i = 0; i < size; i++)
        at[i] = from[i]! + h61 * k1[i]! + h62 * k2[i]! + h63 * k3[i]! + h64 * k4[i]! + h65 * k5[i]!;
      derivative(at, k6);
      const h71 = step * (35 / 384);
      const h73 = step * (500 / 1113);
      const h74 = step * (125 / 192);
      const h75 = step * (-2187 / 6784);
      const h76 = step * (11 / 84);
      for (let i = 0; i < size; i++)
        to[i] = from[i]! + h71 * k1[i]! + h73 * k3[i]! + h74 * k4[i]! + h75 * k5[i]! + h76 * k6[i]!;
      derivative(to, k7);
      let squares = 0;
      for (let i = 0; i < size; i++) {
        const error = step * (E1 * k1[i]! + E3 * k3[i]! + E4 * k4[i]! + E5 * k5[i]! + E6 * k6[i]! + E7 * k7[i]!);
        const part = error / (tolerance * Math.max(1, Math.abs(from[i]!), Math.abs(to[i]!)));
        squares += part * part;
      }
      return Math.sqrt(squares / Math.max(1, size));
    },
    advance() {
      [from, to] = [to, from];
      [k1, k7] = [k7, k1];
    },
    within(part, into) {
      const rest = 1 - part;
      for (let i = 0; i < size; i++) {
        const change = to[i]! - from[i]!;
        const bend = length * k1[i]! - change;
        const last = D1 * k1[i]! + D3 * k3[i]! + D4 * k4[i]! + D5 * k5[i]! + D6 * k6[i]! + D7 * k7[i]!;
        into[i] =
          from[i]! + part * (change + rest * (bend + part * (change - length * k7[i]! - bend + rest * length * last)));
      }
    },
  };
}

type Six = [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];

/** Fifth order less fourth. */
const [E1, E3, E4, E5, E6, E7] = [71 / 57600, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;
/** Of the curve between. */
const [D1, D3, D4, D5, D6, D7] = [
  -12715105075 / 11282082432,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
] as const;

/**
 * The next step's length after one of this length and error (over what is allowed), and the error of the good step before it:
 * where errors rise, the next is shorter, so that fewer are tried in vain. Factors: Hairer, Nørsett and Wanner II.4, the
 * stabilised control of their DOPRI5 (from memory).
 */
export function nextStep(step: number, error: number, before: number): number {
  const least = Math.max(error, LEAST_ERROR);
  const change = error > 1 ? least ** -0.2 : least ** -(0.2 - 0.75 * STEADY) * Math.max(before, LEAST_ERROR) ** STEADY;
  return step * Math.min(5, Math.max(0.2, 0.9 * change));
}

const STEADY = 0.04;
const LEAST_ERROR = 1e-4;
