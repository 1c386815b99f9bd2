import {
  asSite,
  freeFall,
  type LetGo,
  type LetGoSystem,
  STANDARD_GRAVITY_MS2,
  type Stop,
  type Touch,
} from "@gantline/engine";
import { amount } from "../judge.ts";
import type { Plan } from "../schema/plan.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import type { Phrase } from "../units/quantity.ts";
import type { LetGoCase, LoadFall } from "./let-go-plan-types.ts";
import { boxOf, stopsOfLoad, YOKE } from "./let-go-system.ts";
import { BELOW, firstBelowM, floorBelow, structureOfStop } from "./load-stops.ts";

/** One cut followed once. */
export interface FollowedRun {
  readonly system: LetGoSystem;
  readonly run: LetGo;
  /** A brake still lets rope through when it is followed no longer. */
  readonly slips: boolean;
}

/** Who reaches what is below faster than this has fallen, m/s: as from 0.2 m. Planning choice, no source. */
export const FALL_MS = 2;
/** Free fall to that speed, m: what is lowered by no more is not a fall. */
const FALL_M = FALL_MS ** 2 / (2 * STANDARD_GRAVITY_MS2);
/** What faces up more than sideways bears what comes down on it: cos 45°. */
const FACES_UP = Math.SQRT1_2;
/** Less rope than this through a brake is its taking hold, m. Planning choice, no source. */
export const SLIPPED_M = 0.01;

/** Nearer to what is below it than this the load lies on it, m. */
const LIES_M = 0.005;

/** How far the load could fall plumb from where it is wanted before any part of it comes down on something, m. */
export function roomBelowM(plan: Plan): number {
  const box = boxOf(plan, asSite(plan.rig.load.positionM));
  return Math.max(0, box.middle[2] - box.half[2] - firstBelowM(plan, box));
}

/** Free fall of the load's box to what is below it: where nothing holds it. */
export function loadFreeFall(solved: SolvedPlan): LoadFall {
  const { plan, load } = solved;
  const box = boxOf(plan, load.yoke);
  const { levelM, what } = floorBelow(plan, box);
  const heightM = Math.max(0, box.middle[2] - box.half[2] - levelM);
  const first = freeFall({ positionM: load.yoke, halfSizeM: box.half }, stopsOfLoad(solved));
  const before = first !== null && first.heightM < heightM - LIES_M;
  return {
    heightM,
    speedMS: Math.sqrt(2 * STANDARD_GRAVITY_MS2 * heightM),
    onto: what,
    slippedM: 0,
    timeS: Math.sqrt((2 * heightM) / STANDARD_GRAVITY_MS2),
    strikes: before
      ? { what: nameOf(plan, first.stop), heightM: first.heightM, timeS: first.timeS, speedMS: first.speedMS }
      : null,
  };
}

/** Rope that brakes let through, all together, m. */
export const slippedM = ({ lines }: LetGoSystem, run: LetGo): number =>
  Object.entries(run.lines).reduce(
    (sum, [id, { paidOutM }]) => sum + (lines[id]?.holding?.kind === "brake" ? Math.max(0, paidOutM) : 0),
    0,
  );

/**
 * Where the load comes down on ground, roof or parapet and is not held: faster than it may, or after a brake has let rope
 * through, however slowly, from higher than a fall is counted from. Of all runs the hardest; null: it does not.
 */
export function comesDown({ plan }: SolvedPlan, runs: readonly FollowedRun[]): FollowedFall | null {
  const falls = runs.flatMap((of): FollowedFall[] => {
    const { system, run } = of;
    const slipM = slippedM(system, run);
    const isLet = slipM > SLIPPED_M;
    return run.touches.flatMap((touch): FollowedFall[] => {
      const heightM = heightTo(system, touch);
      if (heightM === null || !(touch.speedMS > FALL_MS || (isLet && heightM > FALL_M))) return [];
      const { speedMS, atS: timeS } = touch;
      const onto = nameOf(plan, touch.stop);
      return [{ fall: { heightM, speedMS, onto, slippedM: isLet ? slipM : 0, timeS, strikes: null }, of, timeS }];
    });
  });
  return falls.reduce<FollowedFall | null>((a, b) => (a === null || b.fall.speedMS > a.fall.speedMS ? b : a), null);
}

/** A fall that was followed: in which run, and when it was down, s. */
export interface FollowedFall {
  readonly fall: LoadFall;
  readonly of: FollowedRun;
  readonly timeS: number;
}

/** From where the load's foot was to what it comes down on, m; null: it does not come down on this. */
function heightTo({ nodes, stops }: LetGoSystem, { node, stop, away }: Touch): number | null {
  const [load, hit] = [nodes[YOKE], stops?.[stop]];
  if (node !== YOKE || !(away[2] > FACES_UP) || !load || !hit) return null;
  return Math.max(0, load.positionM[2] - (load.halfSizeM?.[2] ?? 0) - topOf(hit));
}

/** Level of what faces up, m. */
function topOf(stop: Stop): number {
  if (!("planes" in stop)) return stop.pointM[2];
  const tops = stop.planes.filter(({ normal }) => normal[2] > FACES_UP * Math.hypot(...normal));
  return Math.max(...tops.map(({ pointM }) => pointM[2]));
}

const nameOf = ({ scene }: Plan, stop: string): string => {
  const id = structureOfStop(stop);
  return id === null ? BELOW : (scene.structures.find((s) => s.id === id)?.name ?? id);
};

/** What any part of it touches before what is below its middle. */
const strikeSays = ({ strikes }: LoadFall): Phrase =>
  strikes === null
    ? []
    : [
        ` On its way it strikes ${strikes.what}, `,
        amount(strikes.heightM, "length"),
        " down, at ",
        amount(strikes.speedMS, "speed"),
        ".",
      ];

/** @param holding what still holds, but not before the load is down, or not enough */
export function fallen(
  { sum }: SolvedPlan,
  fall: LoadFall,
  holding: readonly string[] = [],
): Pick<LetGoCase, "outcome" | "says" | "fall"> {
  const [who, falls, comes] =
    sum.persons > 1 ? ["people", "fall", "come"] : [sum.persons === 1 ? "a person" : "the load", "falls", "comes"];
  const names = holding.join(" and ");
  const many = holding.length > 1;
  const { heightM, speedMS, onto } = fall;
  if (heightM < LIES_M && fall.slippedM === 0)
    return { outcome: "falls", says: [`Nothing: it lies on ${onto} already.`], fall };
  const down = [
    amount(heightM, "length"),
    ` onto ${onto}, hitting at `,
    amount(speedMS, "speed"),
    ".",
    ...strikeSays(fall),
  ];
  const says =
    fall.slippedM > 0
      ? [
          `${names} ${many ? "do" : "does"} not hold: ${many ? "their brakes let" : "its brake lets"} `,
          amount(fall.slippedM, "length"),
          ` of rope through, and ${who} ${speedMS > FALL_MS ? falls : `${comes} down`} `,
          ...down,
        ]
      : [`${names === "" ? "Nothing" : `${names} not in time`}: ${who} ${falls} `, ...down];
  return { outcome: "falls", says, fall };
}
