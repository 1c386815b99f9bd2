import * as z from "zod/mini";
import {
  bearingRad,
  coordinate,
  finite,
  fraction,
  id,
  maybeNotNegative,
  maybePositive,
  name,
  notNegative,
  positive,
  ratingBasis,
  text,
} from "./common.ts";

const elevationRad = z.number().check(z.gte(-0.6), z.lte(1.5707963267948966));

/** Of one ladder section. Bounds far outside any ladder: within them a deflection can be worked out. */
const sectionLengthM = z.number().check(z.gte(0.1), z.lte(100));
const sectionMassKg = z.number().check(z.gte(0.1), z.lte(1e5));
const bendingStiffnessNm2 = z.number().check(z.gte(1e4), z.lte(1e12));

export const riggingPoint = z.strictObject({
  id,
  name,
  on: z.enum(["ladder", "platform"]),
  /** Ladder: back from the tip along the ladder. Platform: forward of the tip hinge, level. */
  alongM: finite,
  lateralM: finite,
  dropM: finite,
  ratingN: maybePositive,
  ratingBasis,
  ratingSource: text,
  /** null: not known whether it is structural. */
  structural: z.nullable(z.boolean()),
});

export const ratingRow = z.strictObject({
  elevationMinRad: elevationRad,
  elevationMaxRad: elevationRad,
  lengthMinM: positive,
  lengthMaxM: positive,
  /** Rated vertical load at the tip, N; null: the maker gives none. */
  ratedTipLoadN: maybeNotNegative,
});

export const vehicleAnchor = z.strictObject({
  id,
  name,
  forwardM: finite,
  rightM: finite,
  upM: notNegative,
  ratingN: maybePositive,
  ratingBasis,
  ratingSource: text,
});

export const device = z.strictObject({
  id,
  name,
  /** Invented data, not a real machine. Said on every sheet. */
  example: z.boolean(),
  source: text,
  kind: z.enum(["ladder", "platform"]),
  pivotHeightM: positive,
  pivotSetbackM: finite,
  lengthMinM: positive,
  lengthMaxM: positive,
  elevationMinRad: elevationRad,
  elevationMaxRad: elevationRad,
  beamWidthM: positive,
  beamDepthM: positive,
  platform: z.nullable(
    z.strictObject({
      backM: notNegative,
      forwardM: positive,
      widthM: positive,
      floorDropM: finite,
      railHeightM: positive,
      ratedLoadForwardM: finite,
    }),
  ),
  outline: z.strictObject({ frontM: positive, rearM: positive, leftM: positive, rightM: positive, heightM: positive }),
  jacks: z
    .array(
      z.strictObject({
        id,
        name,
        forwardM: finite,
        rightM: finite,
        padAreaM2: maybePositive,
        maxForceN: maybePositive,
      }),
    )
    .check(z.minLength(3), z.maxLength(12)),
  anchors: z.array(vehicleAnchor).check(z.maxLength(40)),
  riggingPoints: z.array(riggingPoint).check(z.maxLength(40)),
  tipRating: z.strictObject({ source: text, rows: z.array(ratingRow).check(z.maxLength(200)) }),
  /** Highest side load at the tip the maker allows, N; null: no figure published. */
  sideRatingN: maybeNotNegative,
  sideRatingSource: text,
  maxWindMS: maybePositive,
  maxWindSource: text,
  /** Steepest ground the maker allows under a levelled vehicle, rad. */
  maxSlopeRad: maybePositive,
  sections: z.nullable(
    z
      .array(z.strictObject({ lengthM: sectionLengthM, massKg: sectionMassKg, bendingStiffnessNm2 }))
      .check(z.minLength(1), z.maxLength(8)),
  ),
  massKg: maybePositive,
  /** Centre of the whole vehicle's mass in plan, the ladder bedded, from axle and side weights; null: not known. */
  massCentre: z.nullable(z.strictObject({ forwardM: finite, rightM: finite })),
});

export const pose = z.strictObject({ bearingRad, elevationRad, lengthM: positive });

export const aerial = z.strictObject({
  device,
  place: z.strictObject({
    turntableX: coordinate,
    turntableY: coordinate,
    groundZM: coordinate,
    headingRad: bearingRad,
  }),
  pose,
  /** How far each jack is run out, 0 to 1 of its full reach; null: not known. */
  jackReach: z.record(z.string(), z.nullable(fraction)),
  /** Let the ladder's own bending (where its sections are known) move the tip. */
  useSag: z.boolean(),
  /** Shut down and locked out before anyone is on rope. null: not confirmed. */
  lockedOut: z.nullable(z.boolean()),
});

export type Device = z.infer<typeof device>;
export type Aerial = z.infer<typeof aerial>;
