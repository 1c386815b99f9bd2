import { type Device, PLUMB_TOLERANCE_M, type Plan, STAND_STEPS, standAims } from "@gantline/plan";

/** What the person wants looked for. */
export interface Ask {
  readonly deviceIds: readonly string[];
  /** Vehicles to choose from beside the plan's own and the examples: those of the other plans kept on this machine. */
  readonly kept: readonly Device[];
  /** One stand is to serve all of them. */
  readonly aimIds: readonly string[];
  readonly toleranceM: number;
  readonly cellM: number;
}

/** How far apart the turntable places lie that are looked at, m. */
export const CELLS_M = [1, 0.5, 0.25] as const;

/** Unless said: the plan's own vehicle, over the first aim. */
export const firstAsk = (plan: Plan): Ask => ({
  deviceIds: [plan.aerial.device.id],
  kept: [],
  aimIds: [standAims(plan)[0].id],
  toleranceM: PLUMB_TOLERANCE_M,
  cellM: STAND_STEPS.cellM,
});
