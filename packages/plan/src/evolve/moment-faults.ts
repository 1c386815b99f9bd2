import { asSite, bearingOf, distance, subtract } from "@gantline/engine";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import type { StageProblem, When } from "./evolution-types.ts";
import type { Fault } from "./fault.ts";
import { missingPullN } from "./missing-pull.ts";

/** One thing that a moment shows to be wrong. */
export interface MomentFault {
  /** The same at every moment with the same fault: `drifts`, `through/ladder`. */
  readonly kind: string;
  readonly status: StageProblem["status"];
  /** How bad: the worst of a stage's moments is the one that is told in full. */
  readonly size: number;
  readonly says: Phrase;
  readonly drift?: NonNullable<StageProblem["drift"]>;
}

const OF_LOAD: ReadonlySet<string> = new Set(["load", "loadToLadder", "loadToVehicle"]);

/** What a moment shows to be wrong: nothing holds the load on its way, or it goes into or through something. */
export function momentFaults(s: Situation): readonly MomentFault[] {
  const { holding, clearances, loadHeight } = s;
  if (holding.state === "unsolved") {
    // What is not known is told by the stage as written and by the checks that need it; so is a load without main lines.
    if (holding.code === "unknown" || s.plan.rig.mainLines.length === 0) return [];
    const missing = missingPullN(s);
    const status = holding.code === "not-converged" ? "unknown" : "over";
    return [
      {
        kind: `unsolved/${holding.code}`,
        status,
        size: 1,
        says: [...holding.says, ...missingSays(missing, s.laid.tether !== null)],
      },
    ];
  }
  const found: MomentFault[] = holding.state === "drifts" ? [drifting(s)] : [];
  if (loadHeight.heightM < -IN_GROUND_M)
    found.push({
      kind: `into/${loadHeight.over ?? "ground"}`,
      status: "over",
      size: -loadHeight.heightM,
      says: [`the load goes into ${loadHeight.over ?? "the ground"}.`],
    });
  for (const c of clearances)
    if (c.touching && !c.unplaced && OF_LOAD.has(c.kind))
      found.push({
        kind: `through/${c.id}`,
        status: "over",
        size: 1,
        says: [`the load goes through ${c.kind === "load" ? c.toWhat : `the ${c.toWhat.toLowerCase()}`}.`],
      });
  return found;
}

function drifting(s: Situation): MomentFault {
  const { wanted, yoke } = s.load;
  const aside = subtract(yoke, wanted);
  const missingN = missingPullN(s);
  const level = Math.hypot(aside[0], aside[1]);
  return {
    kind: "drifts",
    status: "over",
    size: distance(wanted, yoke),
    says: [
      "nothing holds the load on its way; it would go ",
      { value: distance(wanted, yoke), quantity: "length" },
      " aside",
      ...(level > NEAR_M ? [", toward bearing ", { value: bearingOf(aside), quantity: "angle" } as const] : []),
      ", and hang with the yoke at height ",
      { value: yoke[2], quantity: "length" },
      ".",
      ...missingSays(missingN, s.laid.tether !== null),
    ],
    drift: { goesTo: asSite(yoke), missingN },
  };
}

/** A level distance smaller than this has no bearing to tell, m. */
const NEAR_M = 0.01;
/** A pull flatter than this is told by its bearing alone. */
const LEVEL_RAD = 0.05;

function missingSays(missingN: ReturnType<typeof missingPullN>, tethered: boolean): Phrase {
  if (missingN === null) return [];
  const [x, y, z] = missingN;
  const level = Math.hypot(x, y);
  const force = { value: Math.hypot(level, z), quantity: "force" } as const;
  const steep = Math.atan2(Math.abs(z), level);
  const pull: Phrase = [
    tethered ? " Missing, from the tether or another line: a pull of " : " Missing: a pull of ",
    force,
  ];
  if (steep > Math.PI / 2 - LEVEL_RAD) return [...pull, z > 0 ? " straight up." : " straight down."];
  return [
    ...pull,
    " toward bearing ",
    { value: bearingOf(missingN), quantity: "angle" },
    ...(steep > LEVEL_RAD ? [", ", { value: steep, quantity: "angle" } as const, z > 0 ? " upward" : " downward"] : []),
    ".",
  ];
}

/** The faults of a stage's moments, each kind once: from where to where it is so, and what it is at its worst. */
export function gatherFaults(
  stage: number,
  moments: readonly { readonly when: When; readonly faults: readonly MomentFault[] }[],
): ReadonlyMap<string, Fault> {
  const kinds = new Map<string, { worst: MomentFault; when: When; from: number; to: number }>();
  for (const { when, faults } of moments)
    for (const fault of faults) {
      const known = kinds.get(fault.kind);
      if (!known) kinds.set(fault.kind, { worst: fault, when, from: when.along, to: when.along });
      else {
        known.to = when.along;
        if (fault.size > known.worst.size) Object.assign(known, { worst: fault, when });
      }
    }
  return new Map(
    [...kinds].map(([kind, { worst, when, from, to }]) => [
      kind,
      {
        stage,
        status: worst.status,
        says: [...spanSays(from, to, when.along), ...worst.says],
        field: `evolution.stages[${stage}].path`,
        when,
        between: [from, to] as const,
        ...(worst.drift ? { drift: worst.drift } : {}),
      },
    ]),
  );
}

/** "20 % along: ", or "20 to 95 % along, worst at 60 %: ". */
function spanSays(from: number, to: number, worst: number): Phrase {
  const percent = (along: number) => ({ value: Math.round(along * 100), quantity: "count" }) as const;
  const same = (a: number, b: number): boolean => Math.round(a * 100) === Math.round(b * 100);
  if (same(from, to)) return [percent(from), " % along: "];
  const span: Phrase = [percent(from), " to ", percent(to), " % along"];
  return same(from, worst) ? [...span, ": "] : [...span, ", worst at ", percent(worst), " %: "];
}
