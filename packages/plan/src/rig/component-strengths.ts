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

/** A sling as it is hitched. */
export function hitched(plan: Plan, slingId: string, hitch: Hitch): Strength {
  const sling = strengthOf(gearOf(plan, "sling", slingId));
  if (hitch === "straight") return sling;
  const limit = hitch === "basket" ? plan.policy.basketFactor : plan.policy.chokerFactor;
  // How wide a basket is spread is not entered: it depends on what it goes round.
  const source = hitch === "basket" ? `${limit.source}; taken as not spread: spread legs keep less` : limit.source;
  return { ...sling, reductions: [{ symbol: "h", meaning: `${hitch} hitch`, factor: limit.value, source }] };
}

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
