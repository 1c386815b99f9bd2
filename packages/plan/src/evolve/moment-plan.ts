import { asSite, distance, lerp, type SiteVector } from "@gantline/engine";
import type { Stage } from "../schema/evolution.ts";
import type { Plan } from "../schema/plan.ts";
import type { Tagline, Tether } from "../schema/rig.ts";
import type { When } from "./evolution-types.ts";
import { mainsInStage, useInStage } from "./lines-in-stage.ts";

/** Where the yoke is before a stage: at the end of the last path before it. */
export function stageStart(plan: Plan, stage: number): SiteVector {
  for (let i = Math.min(stage, plan.evolution.stages.length) - 1; i >= 0; i--) {
    const end = plan.evolution.stages[i]?.path.at(-1);
    if (end) return asSite(end);
  }
  return asSite(plan.evolution.startM);
}

/** How the ladder is posed before a stage. */
export function poseBefore(plan: Plan, stage: number): Plan["aerial"]["pose"] {
  for (let i = Math.min(stage, plan.evolution.stages.length) - 1; i >= 0; i--) {
    const earlier = plan.evolution.stages[i];
    if (earlier?.action === "moveLadder" && earlier.pose) return earlier.pose;
  }
  return plan.aerial.pose;
}

/** The yoke's way through a stage, with its start. */
export const stageWay = (plan: Plan, stage: number): readonly SiteVector[] => [
  stageStart(plan, stage),
  ...(plan.evolution.stages[stage]?.path ?? []).map(asSite),
];

/** Length of a way, m. */
export const wayLengthM = (way: readonly SiteVector[]): number =>
  way.slice(1).reduce((sum, p, i) => sum + distance(way[i] ?? p, p), 0);

/** The place a share (0 to 1) of the way along, by length. */
export function alongWay(way: readonly SiteVector[], along: number): SiteVector {
  const start = way[0] ?? asSite([0, 0, 0]);
  let left = Math.min(Math.max(along, 0), 1) * wayLengthM(way);
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1] ?? start, way[i] ?? start];
    const length = distance(a, b);
    if (left <= length && length > 0) return lerp(a, b, left / length);
    left -= length;
  }
  return way.at(-1) ?? start;
}

/**
 * The plan as it is at one moment of its evolution: the one position that `evaluate` judges.
 *
 * Load at its place on the way, only what is aboard, lines used as the stage says, the ladder where it is by then.
 * A plan without stages is that position already.
 */
export function momentPlan(plan: Plan, when: When): Plan {
  const stage = plan.evolution.stages[when.stage];
  if (!stage) return plan;
  const positionM = alongWay(stageWay(plan, when.stage), when.along);
  return {
    ...plan,
    aerial: momentAerial(plan, stage, when),
    rig: momentRig(plan, stage, [positionM[0], positionM[1], positionM[2]]),
  };
}

function momentAerial(plan: Plan, stage: Stage, when: When): Plan["aerial"] {
  const before = poseBefore(plan, when.stage);
  const pose = stage.action === "moveLadder" && stage.pose ? between(before, stage.pose, when.along) : before;
  return pose === plan.aerial.pose ? plan.aerial : { ...plan.aerial, pose };
}

function between(a: Plan["aerial"]["pose"], b: Plan["aerial"]["pose"], along: number): Plan["aerial"]["pose"] {
  const turn = ((b.bearingRad - a.bearingRad + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
  return {
    bearingRad: a.bearingRad + along * turn,
    elevationRad: a.elevationRad + along * (b.elevationRad - a.elevationRad),
    lengthM: a.lengthM + along * (b.lengthM - a.lengthM),
  };
}

function momentRig(plan: Plan, stage: Stage, positionM: [number, number, number]): Plan["rig"] {
  const { rig } = plan;
  const aboard = new Set(stage.aboard);
  const used = <T extends Tagline | Tether>(line: T): T[] => {
    const { on, drive, tensionN, lengthM } = useInStage(stage, line);
    return on ? [{ ...line, drive, tensionN, lengthM }] : [];
  };
  const mainLines = mainsInStage(plan, stage);
  const tether = rig.tether === null ? null : (used(rig.tether)[0] ?? null);
  const isOff = (id: string): boolean => rig.mainLines.some((l) => l.id === id) && !mainLines.some((l) => l.id === id);
  return {
    ...rig,
    load: {
      ...rig.load,
      positionM,
      drive: "position",
      motion: stage.motion,
      parts: rig.load.parts.filter((p) => aboard.has(p.id)),
    },
    mainLines: [...mainLines],
    taglines: rig.taglines.flatMap(used),
    tether: tether?.rides.some(isOff) ? { ...tether, rides: tether.rides.filter((id) => !isOff(id)) } : tether,
  };
}
