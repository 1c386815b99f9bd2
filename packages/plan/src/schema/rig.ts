import * as z from "zod/mini";
import {
  bearingRad,
  fraction,
  id,
  maybeNotNegative,
  maybePositive,
  name,
  notNegative,
  positive,
  ratingBasis,
  sitePoint,
  text,
} from "./common.ts";

/** A place a redirect or a brake is made fast to: an anchor of the vehicle, or one on the ground or a structure. */
export const anchorage = z.discriminatedUnion("on", [
  z.strictObject({ on: z.literal("vehicle"), anchorId: id }),
  z.strictObject({
    on: z.literal("ground"),
    position: sitePoint,
    ratingN: maybePositive,
    ratingBasis,
    ratingSource: text,
  }),
]);

export const hitch = z.enum(["straight", "basket", "choker"]);

/** Angle between the two legs of a basket hitch; 0: parallel, null: not known. */
export const basketAngleRad = z.nullable(z.number().check(z.gte(0), z.lte(3)));

export const loadPart = z.strictObject({
  id,
  name,
  kind: z.enum(["casualty", "attendant", "rescuer", "litter", "hardware"]),
  massKg: maybeNotNegative,
});

export const load = z.strictObject({
  parts: z.array(loadPart).check(z.maxLength(30)),
  /** The yoke is where the main lines, the tether and the taglines meet above the load. */
  yoke: id,
  bridle: z.strictObject({
    /** From the yoke down to the top of the load, m. */
    heightM: positive,
    legs: z.number().check(z.int(), z.gte(1), z.lte(8)),
    /** Level distance from below the yoke out to where a leg meets the load, m. */
    spreadM: notNegative,
    sling: id,
    connector: id,
  }),
  /** Litter under the bridle; null: none. */
  litter: z.nullable(id),
  /** The space the load takes up, hung level below the bridle. */
  box: z.strictObject({ lengthM: positive, widthM: positive, heightM: positive, bearingRad }),
  /** Drag coefficient times area, m²; null: not known. */
  dragAreaM2: maybeNotNegative,
  /** Where the yoke is wanted. */
  positionM: sitePoint,
  /** By position: find the pulls that hold the load there. By length: find where the ropes as measured let it hang. */
  drive: z.enum(["position", "length"]),
  /** Which way the main lines are moving, or at rest, where friction can act either way. */
  motion: z.enum(["raise", "lower", "rest"]),
});

export const redirect = z.strictObject({
  id,
  name,
  anchorage,
  sheave: id,
  connector: id,
  sling: z.nullable(id),
  hitch,
  basketAngleRad,
});

export const mainLine = z.strictObject({
  id,
  name,
  rope: id,
  /** Part of the load this line carries; the shares of all main lines make 1. */
  share: fraction,
  loadKnot: id,
  loadConnector: id,
  tip: z.strictObject({
    pointId: id,
    sheave: id,
    connector: id,
    sling: z.nullable(id),
    hitch,
    basketAngleRad,
    /** From the rigging point to the middle of the sheave, m. */
    reachM: notNegative,
  }),
  redirects: z.array(redirect).check(z.maxLength(6)),
  brake: z.strictObject({ anchorage, device: id, connector: id }),
  /** Unstretched rope from yoke to brake, m; used when the drive is by length. */
  lengthM: maybePositive,
  /** Rope wanted beyond the brake, m. */
  reserveM: notNegative,
});

export const tagline = z.strictObject({
  id,
  name,
  rope: id,
  knot: id,
  connector: id,
  /** Where the hands are. */
  handler: sitePoint,
  people: z.number().check(z.int(), z.gte(0), z.lte(20)),
  /** As needed: whatever holds the load's place. Tension: a steady pull. Length: made fast. */
  drive: z.enum(["asNeeded", "tension", "length"]),
  tensionN: maybeNotNegative,
  lengthM: maybePositive,
  reserveM: notNegative,
});

/**
 * The skate tether: an adjustable tackle from the yoke to a pulley that rides the returning part of one or both main
 * lines, between the tip and the first redirect. It draws the load in toward the ladder.
 */
export const tether = z.strictObject({
  id,
  name,
  /** Rope of the tackle. */
  rope: id,
  knot: id,
  connector: id,
  /** The pulley that rides. */
  pulley: id,
  /** Main lines it rides. */
  rides: z.array(id).check(z.minLength(1), z.maxLength(2)),
  /** Ropes of the tackle between yoke and pulley. */
  parts: z.number().check(z.int(), z.gte(1), z.lte(9)),
  /** Yoke to pulley with the tackle drawn together and run out, m. */
  lengthMinM: positive,
  lengthMaxM: positive,
  people: z.number().check(z.int(), z.gte(0), z.lte(20)),
  drive: z.enum(["asNeeded", "tension", "length"]),
  tensionN: maybeNotNegative,
  lengthM: maybePositive,
});

export const rig = z.strictObject({
  load,
  mainLines: z.array(mainLine).check(z.minLength(1), z.maxLength(2)),
  taglines: z.array(tagline).check(z.maxLength(2)),
  tether: z.nullable(tether),
});

export type LoadPart = z.infer<typeof loadPart>;
export type Load = z.infer<typeof load>;
export type Anchorage = z.infer<typeof anchorage>;
export type Redirect = z.infer<typeof redirect>;
export type MainLine = z.infer<typeof mainLine>;
export type Tagline = z.infer<typeof tagline>;
export type Tether = z.infer<typeof tether>;
export type Rig = z.infer<typeof rig>;
export type Hitch = z.infer<typeof hitch>;
