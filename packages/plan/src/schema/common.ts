import * as z from "zod/mini";

/** No amount of a plan is beyond this, in any unit it is stored in; what is larger is a slip, and would overflow. */
const LARGEST = 1e9;
/** A positive amount smaller than this is as good as none, and cannot be divided by. */
const SMALLEST = 1e-9;

/** A finite number; which unit it is in stands at the end of the field's name. */
export const finite = z.number().check(z.gte(-LARGEST), z.lte(LARGEST));
export const positive = z.number().check(z.positive({ abort: true }), z.gte(SMALLEST), z.lte(LARGEST));
export const notNegative = z.number().check(z.nonnegative(), z.lte(LARGEST));
/** An amount that may be missing: `null` means not known, and is never taken as good. */
export const maybePositive = z.nullable(positive);
export const maybeNotNegative = z.nullable(notNegative);
export const fraction = z.number().check(z.gte(0), z.lte(1));
/** Clockwise from north, rad. Any turn is allowed; it is read modulo a full circle. */
export const bearingRad = z.number().check(z.gte(-7), z.lte(14));
export const coordinate = z.number().check(z.gte(-100_000), z.lte(100_000));
/** Ids tie parts of a plan together; letters, digits, dot, dash and underscore. */
export const id = z.string().check(z.regex(/^[A-Za-z][A-Za-z0-9._-]{0,63}$/));
export const name = z.string().check(z.minLength(1), z.maxLength(200));
export const text = z.string().check(z.maxLength(20_000));
/** Site frame, m: [east, north, up]. */
export const sitePoint = z.tuple([coordinate, coordinate, coordinate]);
/** Site frame, m: [east, north]. */
export const planPoint = z.tuple([coordinate, coordinate]);
/** A simple closed outline in plan, either winding, last point not repeated. */
export const outline = z.array(planPoint).check(z.minLength(3), z.maxLength(500));

/** On what a strength or rating rests. */
export const ratingBasis = z.nullable(z.enum(["working", "breaking", "structural"]));
