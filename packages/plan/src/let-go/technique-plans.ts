import { type SiteVector, tackleAdvantage } from "@gantline/engine";
import { gearOf } from "../rig/gear-of.ts";
import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline } from "../schema/rig.ts";
import type { Situation } from "../situation.ts";
import type { TechniqueId } from "./let-go-plan-types.ts";

/** One technique as a variant of a plan, or why it cannot be on this scene. */
export interface TechniquePlan {
  readonly id: TechniqueId;
  readonly name: string;
  readonly plan: Plan | null;
  readonly says: string;
  /** Taglines that stand for a belay: held by a brake and not by hands. */
  readonly fast: readonly string[];
  readonly slackM: Readonly<Record<string, number>>;
  /** Lines that are one rope: they go together. */
  readonly oneRope: boolean;
  /** Ropes side by side in each line, by id; one where not said. */
  readonly parts: Readonly<Record<string, number>>;
  readonly needs: readonly string[];
}

/** Slack of a belay that is not kept tight, m. Planning choice, no source. */
export const BELAY_SLACK_M = 0.3;
/** Pull that keeps a belay from hanging in a loop, N. Planning choice, no source. */
const BELAY_PULL_N = 30;
/** Ropes of the tackle hung from the tip. */
const TACKLE_PARTS = 4;
/** How far to the side of the turntable a return line is led off, and where its brake is beyond, m. Planning choice, no source. */
const SIDE_M = 8;
const BRAKE_BEYOND_M = 3;

/** The techniques compared, as variants of a plan that is solved as it is. */
export function techniquePlans({ plan, geometry, load }: Situation): readonly TechniquePlan[] {
  const plain = { says: "", fast: [], slackM: {}, oneRope: false, parts: {}, needs: [] };
  const [first] = plan.rig.mainLines;
  if (!first) return [];
  const second = secondMain(plan, first);
  const pair = second ? [first, second] : null;
  const noPoint = "This ladder has no second rigging point.";
  return [
    {
      ...plain,
      id: "two-tension",
      name: "Two ropes in tension over the tip",
      plan: pair && withMains(plan, shared(pair, [0.5, 0.5])),
      says: pair ? "" : noPoint,
    },
    structureBelay(plan, first, load.yoke),
    {
      ...plain,
      id: "main-and-slack-belay",
      name: "Main and slack belay, both over the tip",
      plan: pair && withMains(plan, shared(pair, [1, 0])),
      says: pair ? "" : noPoint,
      slackM: pair?.[1] ? { [pair[1].id]: BELAY_SLACK_M } : {},
    },
    tackleAtTip(plan, first, geometry.riggingPoints.find((p) => p.id === first.tip.pointId)?.at ?? null),
    {
      ...plain,
      id: "return-to-side",
      name: "Return lines led off to the side",
      plan: withMains(
        plan,
        plan.rig.mainLines.map((l) => ledToSide(plan, l)),
      ),
      needs: ["anchors off the vehicle, to the side of the ladder"],
    },
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

/** One main line, and a belay run from the highest structure by, held there by a brake. */
function structureBelay(plan: Plan, first: MainLine, yoke: SiteVector): TechniquePlan {
  const base = {
    id: "single-and-structure-belay" as const,
    name: "Single main over the tip, belay from the structure",
    slackM: {},
    oneRope: false,
    parts: {},
  };
  const top = [...plan.scene.structures].sort(
    (a, b) => b.topZM - a.topZM || nearestTo(a.outline, yoke).awayM - nearestTo(b.outline, yoke).awayM,
  )[0];
  if (!top)
    return { ...base, plan: null, says: "No structure stands in this scene to belay from.", fast: [], needs: [] };
  const { at } = nearestTo(top.outline, yoke);
  const belay: Tagline = {
    id: "belay",
    name: "Belay from the structure",
    rope: first.rope,
    knot: first.loadKnot,
    connector: first.loadConnector,
    handler: [at[0], at[1], top.topZM + top.parapetHeightM + 1],
    people: 1,
    drive: "tension",
    tensionN: BELAY_PULL_N,
    lengthM: null,
    reserveM: first.reserveM,
  };
  return {
    ...base,
    plan: withMains(plan, shared([first], [1]), [...plan.rig.taglines, belay]),
    says: "",
    fast: [belay.id],
    needs: ["someone on top already", `an anchor on ${top.name}`],
  };
}

function nearestTo(outline: readonly (readonly [number, number])[], [x, y]: SiteVector) {
  const corners = outline.map((at, i) => {
    const next = outline[(i + 1) % outline.length] ?? at;
    const [dx, dy] = [next[0] - at[0], next[1] - at[1]];
    const squared = dx * dx + dy * dy;
    const t = squared > 0 ? Math.min(1, Math.max(0, ((x - at[0]) * dx + (y - at[1]) * dy) / squared)) : 0;
    const on: readonly [number, number] = [at[0] + t * dx, at[1] + t * dy];
    return { at: on, awayM: Math.hypot(x - on[0], y - on[1]) };
  });
  return corners.reduce((a, b) => (b.awayM < a.awayM ? b : a));
}

/**
 * A tackle hung from the rigging point, its lead going down to where the main line's brake is: the lead as a line over the
 * tip with its part of the load, the other ropes of the tackle as one line made fast there. One rope all the same.
 */
function tackleAtTip(plan: Plan, first: MainLine, point: SiteVector | null): TechniquePlan {
  const base = {
    id: "tackle-at-tip" as const,
    name: `Hauling tackle of ${TACKLE_PARTS} hung from the tip`,
    fast: [],
    slackM: {},
    needs: ["a second line of its own: the tackle is a single rope"],
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

/** A main line whose rope turns at an anchor on the ground to the ladder's right, and ends at a brake beyond it. */
function ledToSide(plan: Plan, line: MainLine): MainLine {
  const { turntableX, turntableY, groundZM } = plan.aerial.place;
  const right = plan.aerial.pose.bearingRad + Math.PI / 2;
  const on = (awayM: number) => ({
    on: "ground" as const,
    position: [turntableX + awayM * Math.sin(right), turntableY + awayM * Math.cos(right), groundZM + 0.3] as [
      number,
      number,
      number,
    ],
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
