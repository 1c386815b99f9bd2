import { createRequire } from "node:module";

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  denseOutput: boolean;
  /** Has its results handed over at even distances, the start among them. */
  grid(step: number, out: (t: number, y: readonly number[]) => void): unknown;
  solve(
    slope: (t: number, y: readonly number[]) => readonly number[],
    from: number,
    start: readonly number[],
    to: number,
    out: unknown,
  ): { readonly y: readonly number[] };
}

// Its sources are in TypeScript that our settings refuse, so it is taken as what it runs as.
const require = createRequire(import.meta.url);
const { Solver } = require("odex") as { readonly Solver: new (size: number) => OdexSolver };

/**
 * Solves y' = f(y) with ODEX, an extrapolation integrator by E. Hairer and G. Wanner (registry library odex 2.0.4).
 *
 * @param look is handed the state every `everyS`, from the start on
 */
export function solveWithOdex(
  slope: (y: readonly number[]) => readonly number[],
  start: readonly number[],
  durationS: number,
  everyS: number,
  look: (timeS: number, y: readonly number[]) => void,
): readonly number[] {
  const solver = new Solver(start.length);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-12;
  solver.maxSteps = 1_000_000;
  solver.denseOutput = true;
  const { y } = solver.solve((_, at) => slope(at), 0, start, durationS, solver.grid(everyS, look));
  return y;
}
