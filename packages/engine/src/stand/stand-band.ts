/** What a cell comes to; a `StandBand` holds the index. */
export const STAND_STATUSES = ["feasible", "unknown", "rejected"] as const;
export type StandStatus = (typeof STAND_STATUSES)[number];

/** By which figure poses are compared. Each has one best pose in every cell that is not rejected. */
export const STAND_FIGURES = ["steepest", "shortest", "leastUsed", "clearest"] as const;

/**
 * - `steepest`: elevation, rad; more is better.
 * - `shortest`: pivot to tip, m; less is better.
 * - `leastUsed`: resultant over what may be used of the rated load; less is better.
 * - `clearest`: distance beyond what is asked for, the least over all obstacles and wires, m, counted up to
 *   `clearanceCountedM`; more is better. Only where every limit is known.
 */
export type StandFigure = (typeof STAND_FIGURES)[number];

/**
 * What a search found in some cells: parallel arrays, one entry a cell.
 *
 * Poses are those of feasible candidates in a feasible cell and of unknown ones in an unknown cell; `standAt` reads a
 * pose, `standReasonAt` a reason.
 */
export interface StandBand {
  /** Row × columns + column of the grid. */
  readonly cells: Uint32Array;
  /** Index in `STAND_STATUSES`. */
  readonly status: Uint8Array;
  /** How many candidates are feasible; how many are unknown. */
  readonly feasibleCount: Uint32Array;
  readonly unknownCount: Uint32Array;
  /** Index in `STAND_CHECKS` of what governs the candidate nearest to passing; 0 in a feasible cell. */
  readonly check: Uint8Array;
  readonly value: Float64Array;
  readonly limit: Float64Array;
  /** Bits: 1 the value is known, 2 the limit is known. */
  readonly known: Uint8Array;
  /** How far from passing relative to the limit, ≥ 0; 0 in a cell that is not rejected. */
  readonly miss: Float64Array;
  /** Index of the obstacle, wire, keep-out or parking ground in the question's list of them; −1 for none. */
  readonly thing: Int32Array;
  /** Of a rejected cell the candidate that comes nearest to passing, see `standAt`; −1 where none was posed. */
  readonly nearest: Int32Array;
  readonly best: Readonly<Record<StandFigure, StandBest>>;
}

/** The best candidate of each cell by one figure. */
export interface StandBest {
  /** 0 where there is none. */
  readonly figure: Float64Array;
  /** See `standAt`; −1 where there is none. */
  readonly candidate: Int32Array;
}
