import * as z from "zod/mini";
import { fraction, id, maybeNotNegative, maybePositive, name, positive, text } from "./common.ts";

/** What every piece of gear has: what kind it is, which standard it is made to, how strong it is and by which word. */
const base = {
  id,
  name,
  example: z.boolean(),
  /** The standard it is marked with, as "EN 12275" or "NFPA 2500 G"; empty: none. */
  standard: text,
  /** null: not known. */
  strengthN: maybePositive,
  strengthBasis: z.nullable(z.enum(["working", "breaking"])),
  massKg: maybeNotNegative,
};

export const rope = z.strictObject({
  ...base,
  kind: z.literal("rope"),
  diameterM: positive,
  linearMassKgM: maybeNotNegative,
  /** EA from slow elongation, N; null: not known. */
  staticStiffnessN: maybePositive,
  /** EA from an impact test, N; null: not known. */
  dynamicStiffnessN: maybePositive,
  /** Length of each rope in the cache, m. */
  lengthsM: z.array(positive).check(z.maxLength(60)),
});
export const connector = z.strictObject({ ...base, kind: z.literal("connector") });
/** Efficiency is quoted for a 180° wrap. */
export const sheave = z.strictObject({
  ...base,
  kind: z.literal("sheave"),
  efficiency: z.nullable(z.number().check(z.positive(), z.lte(1))),
  diameterM: maybePositive,
});
export const sling = z.strictObject({ ...base, kind: z.literal("sling"), lengthM: positive });
export const brake = z.strictObject({
  ...base,
  kind: z.literal("brake"),
  slipN: maybePositive,
  /** Does it hold with no hand on it? null: not known. */
  holdsHandsOff: z.nullable(z.boolean()),
});
export const yoke = z.strictObject({ ...base, kind: z.literal("yoke") });
export const litter = z.strictObject({ ...base, kind: z.literal("litter") });
/** A knot keeps this share of the rope's strength. */
export const knot = z.strictObject({
  id,
  name,
  example: z.boolean(),
  kind: z.literal("knot"),
  efficiency: z.nullable(fraction),
  tailM: positive,
  source: text,
});

export const gear = z.discriminatedUnion("kind", [rope, connector, sheave, sling, brake, yoke, litter, knot]);

export type Gear = z.infer<typeof gear>;
export type GearKind = Gear["kind"];
export type GearOf<K extends GearKind> = Extract<Gear, { kind: K }>;
