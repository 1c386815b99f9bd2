import * as z from "zod/mini";
import {
  bearingRad,
  coordinate,
  id,
  maybeNotNegative,
  maybePositive,
  name,
  notNegative,
  outline,
  planPoint,
  sitePoint,
  text,
} from "./common.ts";

/** A building, a free-standing wall or an obstruction: an outline carried straight up, with or without a parapet round its top. */
export const structure = z.strictObject({
  id,
  name,
  kind: z.enum(["building", "wall", "obstruction"]),
  outline,
  baseZM: coordinate,
  /** Roof level or top of the wall, without the parapet. */
  topZM: coordinate,
  parapetHeightM: notNegative,
  parapetThicknessM: notNegative,
});

/** Ground a vehicle may stand on. `zM` is the level at the outline's first point; the ground falls toward `downhillBearingRad`. */
export const parkingGround = z.strictObject({
  id,
  name,
  outline,
  zM: coordinate,
  slopeRad: z.number().check(z.gte(0), z.lte(0.6)),
  downhillBearingRad: bearingRad,
  /** Presumptive bearing value of the ground, Pa; null: not known. */
  bearingPa: maybePositive,
});

/** An area drawn on the ground that has no height: a gap, water, or a place nobody and nothing may stand. */
export const groundArea = z.strictObject({
  id,
  name,
  kind: z.enum(["gap", "water", "keepOut"]),
  outline,
  zM: coordinate,
});

export const powerLine = z.strictObject({
  id,
  name,
  /** Nominal, kV AC between phases; null: not known. */
  voltageKv: maybeNotNegative,
  /** The lowest wire where it hangs, sag and swing allowed for. */
  wire: z.array(sitePoint).check(z.minLength(2), z.maxLength(200)),
});

export const namedPlace = z.strictObject({ name, position: sitePoint });

export const scene = z.strictObject({
  name,
  example: z.boolean(),
  /** Level of the ground where no parking ground is drawn, m. */
  groundZM: coordinate,
  structures: z.array(structure).check(z.maxLength(100)),
  parking: z.array(parkingGround).check(z.maxLength(30)),
  areas: z.array(groundArea).check(z.maxLength(60)),
  powerLines: z.array(powerLine).check(z.maxLength(30)),
  /** Did anybody look for power lines? Null: not said. */
  powerLinesLookedFor: z.nullable(z.boolean()),
  casualty: z.nullable(namedPlace),
  destination: z.nullable(namedPlace),
  /** Where the plan view's corner of measurement is, for people who tape distances on the ground. */
  datum: z.nullable(z.strictObject({ name, position: planPoint })),
  wind: z.strictObject({
    /** 3-second gust at the height of the load, m/s; null: not measured. */
    gustMS: maybeNotNegative,
    fromBearingRad: bearingRad,
  }),
  notes: text,
});

export type Structure = z.infer<typeof structure>;
export type ParkingGround = z.infer<typeof parkingGround>;
export type GroundArea = z.infer<typeof groundArea>;
export type PowerLine = z.infer<typeof powerLine>;
export type Scene = z.infer<typeof scene>;
