import type { Gear, GearOf } from "../schema/gear.ts";
import type { Plan } from "../schema/plan.ts";
import type { Anchorage, Hitch } from "../schema/rig.ts";
import { gearOf } from "./gear-of.ts";

export type Basis = "working" | "breaking" | "structural" | null;

/** How strong a component is, by which word, and what is left of it. */
export interface Strength {
  /** null: not known. */
  readonly strengthN: number | null;
  readonly basis: Basis;
  /** What knots and hitches leave of it, and why. */
  readonly reductions: readonly {
    readonly symbol: string;
    readonly meaning: string;
    readonly factor: number | null;
    readonly source: string;
  }[];
  readonly strengthSource: string;
}

/** A piece of gear as it is marked. */
export function strengthOf(gear: Exclude<Gear, { kind: "knot" }> | null): Strength {
  return {
    strengthN: gear?.strengthN ?? null,
    basis: gear?.strengthBasis ?? null,
    reductions: [],
    strengthSource: gear
      ? `${gear.name}${gear.standard ? `, ${gear.standard}` : ""}${gear.example ? " (example gear)" : ""}`
      : "not in the cache",
  };
}

/** A rope with a knot in it. */
export function knotted(rope: GearOf<"rope"> | null, knot: GearOf<"knot"> | null): Strength {
  return {
    ...strengthOf(rope),
    reductions: [
      {
        symbol: "k",
        meaning: `kept by the ${knot?.name.toLowerCase() ?? "knot"}`,
        factor: knot?.efficiency ?? null,
        source: knot?.source ?? "not in the cache",
      },
    ],
  };
}

/** A sling as it is hitched; the legs of a basket pull the harder the wider they are spread. */
export function hitched(
  plan: Plan,
  slingId: string,
  { hitch, basketAngleRad }: { readonly hitch: Hitch; readonly basketAngleRad: number | null },
): Strength {
  const sling = strengthOf(gearOf(plan, "sling", slingId));
  if (hitch === "straight") return sling;
  const { value, source } = hitch === "basket" ? plan.policy.basketFactor : plan.policy.chokerFactor;
  const asHitched = { symbol: "h", meaning: `${hitch} hitch`, factor: value, source };
  return { ...sling, reductions: hitch === "basket" ? [asHitched, spread(basketAngleRad)] : [asHitched] };
}

const spread = (angleRad: number | null): Strength["reductions"][number] => ({
  symbol: "s",
  meaning: "angle between the basket's legs",
  factor: angleRad === null ? null : Math.cos(angleRad / 2),
  source:
    angleRad === null
      ? "not entered"
      : `cosine of half of ${Math.round((angleRad * 180) / Math.PI)}°: balance of two legs (statics)`,
});

/** An anchorage of the vehicle or the ground, as it is rated. */
export function anchorStrength(plan: Plan, anchorage: Anchorage): Strength {
  const of =
    anchorage.on === "ground" ? anchorage : plan.aerial.device.anchors.find((a) => a.id === anchorage.anchorId);
  return {
    strengthN: of?.ratingN ?? null,
    basis: of?.ratingBasis ?? null,
    reductions: [],
    strengthSource: of?.ratingSource || "no rating given",
  };
}
