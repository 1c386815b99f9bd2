import type { StandCheck } from "@gantline/engine";
import type { Style } from "../primitives.ts";

/** What the map shows of a place: what governs there, by a pattern of its own. */
export interface StandClass {
  readonly id: string;
  /** On the map and in the key. */
  readonly word: string;
  readonly style: Style;
}

const kind = (
  id: string,
  word: string,
  tone: NonNullable<Style["fill"]>,
  hatch: Style["hatch"] | null,
  fillOpacity: number,
): StandClass => ({
  id,
  word,
  style: { stroke: tone, widthPx: 0.7, fill: tone, fillOpacity, ...(hatch ? { hatch } : {}) },
});

export const FITS = kind("fits", "vehicle and ladder fit", "within", null, 0.26);
export const UNKNOWN = kind("unknown", "not known", "unknown", "dots", 0.1);
export const RATING_LATER = kind("ratingLater", "rating not yet looked at", "unknown", "dots", 0.04);
/** In a map of a figure: wherever there is none. */
export const FITS_NOT = kind("fitsNot", "does not fit", "faint", "leanRight", 0.05);

const OFF_PARKING = kind("offParking", "over the edge of the parking ground", "faint", "uprightDashes", 0.05);
const KEEP_OUT = kind("keepOut", "on ground to keep off", "hazard", "keepOut", 0.06);
const BODY = kind("body", "vehicle too near an obstacle", "structure", "leanRight", 0.09);
const SLOPE = kind("slope", "ground too steep", "earth", "levelDashes", 0.09);
const NEAR = kind("near", "too near", "tagline", "upright", 0.09);
const FAR = kind("far", "too far", "mainA", "level", 0.09);
const RATING = kind("rating", "rated load passed", "over", "chequer", 0.09);
const NOT_HELD = kind("notHeld", "nothing holds the load", "over", "dashesBothWays", 0.09);
const LADDER = kind("ladder", "ladder too near an obstacle", "close", "leanLeft", 0.09);
const WIRE = kind("wire", "too near a power line", "hazard", "leanDashes", 0.12);

export const REJECTED_CLASSES: readonly StandClass[] = [
  OFF_PARKING,
  KEEP_OUT,
  BODY,
  SLOPE,
  NEAR,
  FAR,
  RATING,
  NOT_HELD,
  LADDER,
  WIRE,
];

/** `null`: off all parking ground, and left as it is. */
export const CLASS_OF: Readonly<Record<StandCheck, StandClass | null>> = {
  offParking: null,
  vehicleOffParking: OFF_PARKING,
  jackOffParking: OFF_PARKING,
  vehicleOnKeepOut: KEEP_OUT,
  jackOnKeepOut: KEEP_OUT,
  vehicleClearance: BODY,
  jackClearance: BODY,
  vehicleToWire: WIRE,
  slopeAlong: SLOPE,
  slopeAcross: SLOPE,
  groundSlope: SLOPE,
  tooNear: NEAR,
  tooLow: FAR,
  tooSteep: NEAR,
  tooShort: NEAR,
  tooLong: FAR,
  rating: RATING,
  nothingHolds: NOT_HELD,
  ladderClearance: LADDER,
  ladderToWire: WIRE,
  platformClearance: LADDER,
  platformToWire: WIRE,
  loadWay: NOT_HELD,
};

/** What governs, in a few words. */
export const reasonWord = (check: StandCheck): string => CLASS_OF[check]?.word ?? "off the parking ground";
