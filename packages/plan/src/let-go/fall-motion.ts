import { fallenTo, type LetGoOptions, letGo } from "@gantline/engine";
import type { SolvedPlan } from "../solve-plan.ts";
import { caseMotion } from "./case-motion.ts";
import { caseSystem } from "./case-system.ts";
import type { CaseMotion, LetGoCase, LoadFall } from "./let-go-plan-types.ts";
import { YOKE } from "./let-go-system.ts";
import type { FollowedRun } from "./load-falls.ts";

type Replay = Pick<LetGoCase, "undamped" | "motion">;

/** As many places as make a smooth picture. */
const SAMPLES = 61;
/** As curves of a cut are followed. */
const FOLLOWED = { tolerance: 1e-5, mostSamples: 240, sampleForces: true } as const satisfies LetGoOptions;

/** The load's free fall, from rest until a part of it touches something; nothing where it lies already. */
export function freeFallMotion(situation: SolvedPlan, { timeS, strikes }: LoadFall): Replay {
  const endS = strikes?.timeS ?? timeS ?? 0;
  const built = caseSystem(situation, {}, [], { fine: true });
  if (!(endS > 0) || !built.ok) return { undamped: null, motion: null };
  const timesS = Array.from({ length: SAMPLES }, (_, k) => (endS * k) / (SAMPLES - 1));
  const places = { [YOKE]: timesS.map((atS) => fallenTo(situation.load.yoke, atS)) };
  return both(caseMotion(situation, built.system, { timesS, places, tensionsN: {}, forcesN: {} }));
}

/** A followed run until the load is down. */
export function fallMotion(
  situation: SolvedPlan,
  { system }: FollowedRun,
  goes: readonly string[],
  timeS: number,
): Replay {
  const run = timeS > 0 ? letGo(system, goes, { ...FOLLOWED, durationS: timeS }) : null;
  return run?.ok ? both(caseMotion(situation, system, run.motion)) : { undamped: null, motion: null };
}

/** There is no damped one beside it: who falls is not at rest at its end. */
const both = (motion: CaseMotion): Replay => ({ undamped: motion, motion });
