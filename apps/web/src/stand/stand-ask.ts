import { type Device, EXAMPLE_DEVICES, PLUMB_TOLERANCE_M, type Plan, STAND_STEPS, standAims } from "@gantline/plan";

/** What the person wants looked for. */
export interface Ask {
  readonly deviceIds: readonly string[];
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
  aimIds: [standAims(plan)[0].id],
  toleranceM: PLUMB_TOLERANCE_M,
  cellM: STAND_STEPS.cellM,
});

/** The plan's own vehicle as it is there, then the others there are. */
export const vehiclesOf = ({ aerial }: Plan): readonly Device[] => [
  aerial.device,
  ...EXAMPLE_DEVICES.filter(({ id }) => id !== aerial.device.id),
];
