import { type LetGo, type LetGoFailure, type LetGoOptions, type LetGoSystem, letGo } from "@gantline/engine";
import type { SolvedPlan } from "../solve-plan.ts";
import { caseSystem, ridesLight } from "./case-system.ts";
import type { LetGoChoices, PlanSystem } from "./let-go-plan-types.ts";
import { comesDown, type FollowedRun, SLIPPED_M, slippedM } from "./load-falls.ts";

/**
 * `fine`: with its band. `ends`: the ends of the range, loosely, for a sweep. `look`: the same one way only, to see which of
 * some is highest; `long`: as that for as long as a fine one. `loose`: one run.
 */
export type Pass = "fine" | "ends" | "look" | "long" | "loose";

/** Error allowed in a step and time followed, for figures that are judged; peaks come in the first swing. */
const FINE = { tolerance: 1e-5, durationS: 8, mostSamples: 60 } as const;
/** How long a sweep follows a cut, s: of a main line, and of any other. */
export const LET_GO_SWEEP_S = { main: 2.5, other: 5 } as const;
/**
 * For the many of a sweep: peaks within a part in a hundred of the fine ones, held by a test. Looser would not be quicker:
 * the energy book would stay open, and the motion be followed again.
 */
const LOOSE = { tolerance: 3e-5, durationS: LET_GO_SWEEP_S.other, mostSamples: 2 } as const;
/** The same where a main line goes: the blow comes within the first second or two, before the load has swung. */
const LOOSE_BLOW = { ...LOOSE, durationS: LET_GO_SWEEP_S.main } as const;
/**
 * The same where a main line goes that leaves the other up to a metre of slack: it is taut after half a second at most. So
 * fine that the book closes after the blow too.
 */
const LOOSE_SLACK = { ...LOOSE, tolerance: 1e-5, durationS: LET_GO_SWEEP_S.main + 0.5 } as const;
/** The same for the few that may be the worst: late events too. */
const LONG = { ...LOOSE, durationS: FINE.durationS } as const;
/** With the tether's pulley at its mass: while the blow lasts. */
const HEAVY = { tolerance: 1e-4, durationS: 2.5, mostSamples: 2 } as const;
/** As many samples as a curve of the fine pass takes. */
const SHOWN = { mostSamples: 240, sampleForces: true } as const;

/** While a brake lets rope through it is followed on, by so much longer each time, for so long at most, s. */
const LONGER = 2.5;
export const LONGEST_S = 60;
/** A brake that lets less than this through in that time has stopped, m. */
const STOPPED_M = 0.005;

export interface FollowedCut {
  readonly ok: true;
  /** One for each system, in order. */
  readonly runs: readonly FollowedRun[];
  /** With the tether's pulley at its mass, for the forces. */
  readonly heavy: FollowedRun | null;
}

export interface CutToFollow {
  readonly situation: SolvedPlan;
  readonly cut: readonly string[];
  /** Of `cut` those that are there. */
  readonly goes: readonly string[];
  /** One of each range, the first being the rig as entered. */
  readonly ranges: readonly LetGoChoices[];
  readonly systems: readonly PlanSystem[];
  readonly pass: Pass;
  readonly replay: boolean;
}

type Followed = LetGoOptions & { readonly durationS: number };

/** A cut followed over its range: until it hangs, or its time is up and no brake lets rope through any more. */
export function followCut(asked: CutToFollow): FollowedCut | LetGoFailure {
  const { situation, cut, goes, ranges, systems, pass } = asked;
  const runs: FollowedRun[] = [];
  const [first] = systems;
  // Its own swing adds to the peaks in the ropes while the blow lasts, above all in the tether.
  const heavy =
    pass === "fine" && first && ridesLight(first)
      ? caseSystem(situation, ranges[0] ?? {}, cut, { fine: true, heavyPulley: true })
      : null;
  for (const [i, built] of systems.entries()) {
    const followed = followOne(asked, built, ranges[i] ?? {}, optionsFor(asked, i));
    if ("code" in followed) return followed;
    runs.push(followed);
  }
  if (!heavy?.ok) return { ok: true, runs, heavy: null };
  const system = { ...heavy.system, solids: {} };
  const run = letGo(system, goes, HEAVY);
  return run.ok ? { ok: true, runs, heavy: { system, run, slips: false } } : run;
}

function optionsFor({ situation, goes, ranges, pass, replay }: CutToFollow, i: number): Followed {
  if (pass === "fine") return { ...FINE, ...(replay ? SHOWN : {}) };
  if (pass === "long") return sooner(LONG, ranges[0], ranges[i]);
  const mainGoes = situation.state?.mains.some((m) => goes.includes(m.laid.line.id)) === true;
  const slackM = Math.max(0, ...Object.values(ranges[i]?.slackM ?? {}));
  const loose = !mainGoes || slackM > 1 ? LOOSE : slackM > 0 ? LOOSE_SLACK : LOOSE_BLOW;
  return pass === "loose" ? loose : sooner(loose, ranges[0], ranges[i]);
}

/** Stiffer ropes swing the load sooner: as the root of their stiffness. The softest are followed all the time, their slow swing with them. */
function sooner<T extends { readonly durationS: number }>(how: T, softest?: LetGoChoices, own?: LetGoChoices): T {
  const stiffer = (own?.stiffnessFactor ?? 1) / (softest?.stiffnessFactor ?? 1);
  return { ...how, durationS: how.durationS / Math.sqrt(Math.max(1, stiffer)) };
}

/** One run; where the tether's pulley cannot be followed without its mass, with it. */
function followOne(
  { situation, cut, goes, pass }: CutToFollow,
  built: PlanSystem,
  range: LetGoChoices,
  options: Followed,
): FollowedRun | LetGoFailure {
  const run = letGo(built.system, goes, options);
  if (run.ok) return untilHeld(situation, built.system, goes, options, run);
  if (run.code !== "not-converged" || !ridesLight(built)) return run;
  const heavy = caseSystem(situation, range, cut, { fine: pass === "fine", heavyPulley: true });
  if (!heavy.ok) return run;
  const again = letGo(heavy.system, goes, options);
  return again.ok ? untilHeld(situation, heavy.system, goes, options, again) : again;
}

/** A brake that lets rope through when the time is up does not hold yet: on, until it does, or the load is down. */
function untilHeld(
  situation: SolvedPlan,
  system: LetGoSystem,
  goes: readonly string[],
  options: Followed,
  first: LetGo,
): FollowedRun | LetGoFailure {
  let run = first;
  for (let durationS = options.durationS; run.ended === "time" && slippedM(system, run) > SLIPPED_M; ) {
    const found = { system, run, slips: true };
    if (durationS >= LONGEST_S || comesDown(situation, [found])) return found;
    durationS = Math.min(LONGEST_S, LONGER * durationS);
    const longer = letGo(system, goes, { ...options, durationS });
    if (!longer.ok) return longer;
    if (slippedM(system, longer) - slippedM(system, run) < STOPPED_M) break;
    run = longer;
  }
  return { system, run, slips: false };
}
