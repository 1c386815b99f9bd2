import { distance, type SiteVector } from "@gantline/engine";
import type { RopeNeed, RunningLine } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { gearOf } from "./gear-of.ts";
import { hangingTag } from "./hanging-tag.ts";
import { howItHangs, STRAIGHT } from "./how-it-hangs.ts";
import type { MainState, RigState, TagState, TetherRun } from "./rig-state.ts";

/** Rope taken up in the brake and at the haul station, m. Planning default, no source. */
export const BRAKE_ROPE_M = 1.5;

/** Free end of the tether's tackle that hands hold, m. Planning default, no source. */
const FREE_END_M = 3;

/**
 * Every rope as it runs, and how much must be brought: its path, as much again as the load can still go down to the
 * ground below it, the knot's tail, the brake and the reserve.
 */
export function runningLines(plan: Plan, state: RigState, boxBottomZM: number): readonly RunningLine[] {
  const toGroundM = Math.max(0, boxBottomZM - plan.scene.groundZM);
  return [
    ...state.mains.map((m) => runningMain(plan, m, toGroundM)),
    ...state.tags.map((t) => runningTag(plan, t, state.yoke)),
    ...(state.tether ? [runningTether(plan, state.tether, state.yoke)] : []),
  ];
}

function runningMain(plan: Plan, main: MainState, toGroundM: number): RunningLine {
  const { line, rope } = main.laid;
  const segments = segmentLengths(main.nodes.map((n) => n.at));
  const pathM = total(segments);
  const still = main.tensionsN.raise[0] ?? 0;
  return {
    id: line.id,
    name: line.name,
    role: "main",
    nodes: main.nodes.map(({ id, name, at }) => ({ id, name, at })),
    tensionsN: main.tensionsN,
    slack: still <= 0,
    ...STRAIGHT,
    pathM,
    unstretchedM: unstretched(plan, segments, rope?.staticStiffnessN ?? null, main.tensionsN),
    ...needed({
      pathM,
      toGroundM,
      knotTailM: gearOf(plan, "knot", line.loadKnot)?.tailM ?? 0,
      brakeM: BRAKE_ROPE_M,
      reserveM: line.reserveM,
    }),
  };
}

function runningTag(plan: Plan, tag: TagState, yoke: SiteVector): RunningLine {
  const { line, rope, handsAt } = tag.laid;
  const pathM = distance(yoke, handsAt);
  const tensionsN = tensionsOf(tag);
  return {
    id: line.id,
    name: line.name,
    role: "tagline",
    nodes: [
      { id: "yoke", name: "Yoke", at: yoke },
      { id: "hands", name: `${line.name}, hands`, at: handsAt },
    ],
    tensionsN,
    slack: tag.tensionN <= 0,
    ...howItHangs(tag, yoke, hangingTag(tag, yoke)),
    pathM,
    unstretchedM: unstretched(plan, [pathM], rope?.staticStiffnessN ?? null, tensionsN),
    ...needed({
      pathM,
      toGroundM: 0,
      knotTailM: gearOf(plan, "knot", line.knot)?.tailM ?? 0,
      brakeM: 0,
      reserveM: line.reserveM,
    }),
  };
}

/** The tackle run out as far as it goes, all its ropes and the free end. */
function runningTether(plan: Plan, tether: TetherRun, yoke: SiteVector): RunningLine {
  const { line, rope } = tether.laid;
  const lengthM = distance(yoke, tether.pulleyAt);
  const tensionsN = tensionsOf(tether);
  const stiffnessN = rope?.staticStiffnessN ?? null;
  return {
    id: line.id,
    name: line.name,
    role: "tether",
    nodes: [
      { id: "yoke", name: "Yoke", at: yoke },
      { id: "rider", name: `${line.name}, pulley`, at: tether.pulleyAt },
    ],
    tensionsN,
    slack: tether.tensionN <= 0,
    ...STRAIGHT,
    pathM: lengthM,
    unstretchedM: unstretched(plan, [lengthM], stiffnessN === null ? null : stiffnessN * line.parts, tensionsN),
    ...needed({
      pathM: line.lengthMaxM * line.parts,
      toGroundM: 0,
      knotTailM: gearOf(plan, "knot", line.knot)?.tailM ?? 0,
      brakeM: 0,
      reserveM: FREE_END_M,
    }),
  };
}

const needed = (need: RopeNeed): Pick<RunningLine, "need" | "neededM"> => ({
  need,
  neededM: total(Object.values(need)),
});

/** Tension of a line of one part. */
const tensionsOf = ({ tensionsN: { raise, lower } }: Pick<TagState, "tensionsN">): RunningLine["tensionsN"] => ({
  raise: [raise],
  lower: [lower],
});

/** Rope with no tension in it, for the way the ropes run, at rest for the mean of both: Σ l ÷ (1 + T/EA). */
function unstretched(
  { rig }: Plan,
  segments: readonly number[],
  stiffnessN: number | null,
  { raise, lower }: RunningLine["tensionsN"],
): number | null {
  if (stiffnessN === null) return null;
  const { motion } = rig.load;
  const [a, b] = motion === "raise" ? [raise, raise] : motion === "lower" ? [lower, lower] : [raise, lower];
  return total(segments.map((l, i) => l / (1 + ((a[i] ?? 0) + (b[i] ?? 0)) / 2 / stiffnessN)));
}

const segmentLengths = (points: readonly SiteVector[]): number[] =>
  points.slice(1).map((p, i) => distance(p, points[i] ?? p));
const total = (xs: readonly number[]): number => xs.reduce((s, x) => s + x, 0);
