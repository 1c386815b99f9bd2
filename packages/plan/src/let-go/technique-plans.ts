import { type SiteVector, tackleAdvantage } from "@gantline/engine";
import { gearOf } from "../rig/gear-of.ts";
import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline } from "../schema/rig.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { belayLead } from "./belay-lead.ts";
import type { Belay, TechniqueId } from "./let-go-plan-types.ts";
import { hasAnchorAt, hasAnchorOn, isBarred } from "./scene-has.ts";

/** One technique as a variant of a plan, or why it cannot be on this scene. */
export interface TechniquePlan {
  readonly id: TechniqueId;
  readonly name: string;
  readonly plan: Plan | null;
  readonly says: string;
  /** Taglines that stand for a belay: held by a brake and not by hands. */
  readonly belays: Readonly<Record<string, Belay>>;
  readonly slackM: Readonly<Record<string, number>>;
  /** Lines that are one rope: they go together. */
  readonly oneRope: boolean;
  /** Ropes side by side in each line, by id; one where not said. */
  readonly parts: Readonly<Record<string, number>>;
  /** What it takes that plan and scene do not have. */
  readonly needs: readonly string[];
}

/** Slack of a belay that is not kept tight, m. Planning choice, no source. */
export const BELAY_SLACK_M = 0.3;
/** Pull that keeps a belay from hanging in a loop, N. Planning choice, no source. */
const BELAY_PULL_N = 30;
/** Ropes of the tackle hung from the tip. */
const TACKLE_PARTS = 4;
/** How far to the side of the turntable a return line is led off, where its brake is beyond, and how high, m. Planning choices, no source. */
const SIDE_M = 8;
const BRAKE_BEYOND_M = 3;
const SIDE_ANCHOR_M = 0.3;

/** The techniques compared, as variants of a plan that is solved as it is. */
export function techniquePlans(situation: SolvedPlan): readonly TechniquePlan[] {
  const { plan, geometry, load } = situation;
  const plain = { says: "", belays: {}, slackM: {}, oneRope: false, parts: {}, needs: [] };
  const [first] = plan.rig.mainLines;
  if (!first) return [];
  const second = secondMain(plan, first);
  const pair = second ? [first, second] : null;
  const noPoint = "This ladder has no second rigging point.";
  const secondRope = plan.rig.mainLines.length > 1 || !pair ? [] : ["a second rope, with sheaves, redirects and brake"];
  return [
    {
      ...plain,
      id: "two-tension",
      name: "Two ropes in tension over the tip",
      plan: pair && withMains(plan, shared(pair, [0.5, 0.5])),
      says: pair ? "" : noPoint,
      needs: secondRope,
    },
    structureBelay(situation, first, load.yoke),
    {
      ...plain,
      id: "main-and-slack-belay",
      name: "Main and slack belay, both over the tip",
      plan: pair && withMains(plan, shared(pair, [1, 0])),
      says: pair ? "" : noPoint,
      slackM: pair?.[1] ? { [pair[1].id]: BELAY_SLACK_M } : {},
      needs: secondRope,
    },
    tackleAtTip(plan, first, geometry.riggingPoints.find((p) => p.id === first.tip.pointId)?.at ?? null),
    { ...plain, ...returnToSide(plan) },
  ];
}

const withMains = (plan: Plan, mainLines: MainLine[], taglines = plan.rig.taglines): Plan => {
  const rides = plan.rig.tether?.rides.filter((id) => mainLines.some((l) => l.id === id)) ?? [];
  const tether = plan.rig.tether && rides.length > 0 ? { ...plan.rig.tether, rides } : null;
  return { ...plan, rig: { ...plan.rig, mainLines, taglines, tether } };
};

const shared = (mains: readonly MainLine[], shares: readonly number[]): MainLine[] =>
  mains.map((l, i) => ({ ...l, share: shares[i] ?? 0 }));

/** The plan's second main line, or the first once more over another rigging point that may be used. */
function secondMain(plan: Plan, first: MainLine): MainLine | null {
  const other = plan.rig.mainLines[1];
  if (other) return other;
  const { riggingPoints } = plan.aerial.device;
  const own = riggingPoints.find((p) => p.id === first.tip.pointId);
  const point = riggingPoints.find((p) => p.id !== first.tip.pointId && p.on === own?.on && p.structural !== false);
  return point
    ? { ...first, id: `${first.id}-2`, name: `${first.name}, second`, tip: { ...first.tip, pointId: point.id } }
    : null;
}

/** One main line, and a belay from a structure: over its edge in front of the load to a brake like the main line's. */
function structureBelay(situation: SolvedPlan, first: MainLine, yoke: SiteVector): TechniquePlan {
  const { plan } = situation;
  const base = {
    id: "single-and-structure-belay" as const,
    name: "Single main over the tip, belay from the structure",
    slackM: {},
    oneRope: false,
    parts: {},
  };
  const lead = belayLead(situation, yoke);
  if (!lead) {
    const says =
      plan.scene.structures.length === 0
        ? "No structure stands in this scene to belay from."
        : "From no structure of this scene can a belay be led to the load without running through something.";
    return { ...base, plan: null, says, belays: {}, needs: [] };
  }
  const { structure, edgeAt, brakeAt } = lead;
  const [x, y, z] = edgeAt ?? brakeAt;
  const belay: Tagline = {
    id: "belay",
    name: "Belay from the structure",
    rope: first.rope,
    knot: first.loadKnot,
    connector: first.loadConnector,
    handler: [x, y, z],
    people: 1,
    drive: "tension",
    tensionN: BELAY_PULL_N,
    lengthM: null,
    reserveM: first.reserveM,
  };
  const efficiency = gearOf(plan, "sheave", first.tip.sheave)?.efficiency ?? null;
  return {
    ...base,
    plan: withMains(plan, shared([first], [1]), [...plan.rig.taglines, belay]),
    says: "",
    belays: { [belay.id]: { brake: first.brake.device, over: edgeAt && { efficiency, brakeAt } } },
    needs: [
      "someone on top already",
      ...(hasAnchorOn(plan, structure) ? [] : [`an anchor on ${structure.name}`]),
      ...(edgeAt
        ? [`a roller on the edge of ${structure.name}, no harder on the rope than the sheave at the tip`]
        : []),
    ],
  };
}

/**
 * A tackle hung from the rigging point, its lead going down to where the main line's brake is: the lead as a line over the
 * tip with its part of the load, the other ropes of the tackle as one line made fast there. One rope all the same.
 */
function tackleAtTip(plan: Plan, first: MainLine, point: SiteVector | null): TechniquePlan {
  const base = {
    id: "tackle-at-tip" as const,
    name: `Hauling tackle of ${TACKLE_PARTS} hung from the tip`,
    belays: {},
    slackM: {},
    needs: [`a tackle of ${TACKLE_PARTS} with its sheaves`, "a second line of its own: the tackle is a single rope"],
  };
  const efficiency = gearOf(plan, "sheave", first.tip.sheave)?.efficiency ?? null;
  if (point === null || efficiency === null)
    return {
      ...base,
      plan: null,
      says: "The efficiency of the tackle's sheaves is not known.",
      oneRope: true,
      parts: {},
    };
  const lead = 1 / tackleAdvantage(TACKLE_PARTS, efficiency);
  const standing: MainLine = {
    ...first,
    id: `${first.id}-tackle`,
    name: "Tackle",
    share: 1 - lead,
    tip: { ...first.tip, reachM: 0 },
    redirects: [],
    brake: {
      ...first.brake,
      anchorage: {
        on: "ground",
        position: [point[0], point[1], point[2]],
        ratingN: null,
        ratingBasis: null,
        ratingSource: "",
      },
    },
  };
  return {
    ...base,
    plan: withMains(plan, [{ ...first, name: "Lead of the tackle", share: lead }, standing]),
    says: "",
    oneRope: true,
    parts: { [standing.id]: TACKLE_PARTS - 1 },
  };
}

/** Return lines led off to the ladder's right, or to its left where something stands on the right. */
function returnToSide(plan: Plan): Pick<TechniquePlan, "id" | "name" | "plan" | "says" | "needs"> {
  const base = { id: "return-to-side" as const, name: "Return lines led off to the side" };
  const placesOf = (side: Side) => [SIDE_M, SIDE_M + BRAKE_BEYOND_M].map((awayM) => besideLadder(plan, side, awayM));
  const side = ([1, -1] as const).find((one) => placesOf(one).every((at) => !isBarred(plan.scene, at)));
  if (side === undefined) {
    const says = "On both sides of the ladder a structure stands, or ground is barred, where the anchors would be.";
    return { ...base, plan: null, says, needs: [] };
  }
  const has = placesOf(side).every((at) => hasAnchorAt(plan, at));
  return {
    ...base,
    plan: withMains(
      plan,
      plan.rig.mainLines.map((l) => ledToSide(plan, l, side)),
    ),
    says: "",
    needs: has ? [] : [`anchors off the vehicle, ${SIDE_M} m to the ${side > 0 ? "right" : "left"} of the ladder`],
  };
}

/** To the ladder's right, or to its left. */
type Side = 1 | -1;

function besideLadder({ aerial }: Plan, side: Side, awayM: number): [number, number, number] {
  const { turntableX, turntableY, groundZM } = aerial.place;
  const bearing = aerial.pose.bearingRad + (side * Math.PI) / 2;
  return [turntableX + awayM * Math.sin(bearing), turntableY + awayM * Math.cos(bearing), groundZM + SIDE_ANCHOR_M];
}

/** A main line whose rope turns at an anchor on the ground beside the ladder, and ends at a brake beyond it. */
function ledToSide(plan: Plan, line: MainLine, side: Side): MainLine {
  const on = (awayM: number) => ({
    on: "ground" as const,
    position: besideLadder(plan, side, awayM),
    ratingN: null,
    ratingBasis: null,
    ratingSource: "",
  });
  const [redirect] = line.redirects;
  return {
    ...line,
    redirects: redirect ? [{ ...redirect, anchorage: on(SIDE_M) }] : [],
    brake: { ...line.brake, anchorage: on(redirect ? SIDE_M + BRAKE_BEYOND_M : SIDE_M) },
  };
}
