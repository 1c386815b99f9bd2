import { addScaled, boxDistanceSquared, clearance, type Solid, UP } from "@gantline/engine";
import { placeLoad } from "../place-geometry.ts";
import { IN_GROUND_M } from "../site-ground.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { driftOf, groundBelow, missingSays } from "./drift.ts";
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

/** What a moment shows to be wrong: nothing holds the load on its way, or it or its way goes into or through something. */
export function momentFaults(s: Situation): readonly MomentFault[] {
  const { holding, clearances, loadHeight } = s;
  if (holding.state === "unsolved") return [...unsolved(s), ...wayThrough(s, [])];
  const found: MomentFault[] = [];
  const through = clearances.flatMap((c) =>
    c.touching && !c.unplaced && OF_LOAD.has(c.kind)
      ? [c.kind === "load" ? c.toWhat : `the ${c.toWhat.toLowerCase()}`]
      : [],
  );
  if (holding.state === "drifts")
    found.push({ kind: "drifts", status: "over", ...driftOf(s) }, ...wayThrough(s, through));
  else if (loadHeight.heightM < -IN_GROUND_M)
    found.push({
      kind: `into/${groundBelow(s)}`,
      status: "over",
      size: -loadHeight.heightM,
      says: [`the load goes into ${groundBelow(s)}.`],
    });
  for (const what of through)
    found.push({ kind: `through/${what}`, status: "over", size: 1, says: [`the load goes through ${what}.`] });
  return found;
}

/** Nothing could be solved: why, and what is missing. What the stage as written tells already is not told again. */
function unsolved(s: Situation): readonly MomentFault[] {
  const { holding, sum, plan, laid } = s;
  if (holding.state !== "unsolved" || plan.rig.mainLines.length === 0 || sum.unweighed.length > 0) return [];
  const { code, says } = holding;
  const missing = code === "unknown" ? [] : missingSays(missingPullN(s), laid.tether !== null);
  return [
    {
      kind: `unsolved/${code}`,
      status: code === "not-converged" || code === "unknown" ? "unknown" : "over",
      size: 1,
      says: [...says, ...missing],
    },
  ];
}

/**
 * Does the way itself lead through something, where the load is not held on it? Lifted by as little as it may lie in the
 * ground, so that it may stand on a roof.
 *
 * @param told what the load itself goes through then
 */
function wayThrough({ plan, geometry, load }: Situation, told: readonly string[]): readonly MomentFault[] {
  const { box } = placeLoad(plan, addScaled(load.wanted, UP, IN_GROUND_M));
  const { ladder, platform, vehicleSolid, structures } = geometry;
  const things: readonly (readonly [name: string, solids: readonly Solid[]])[] = [
    ["the ladder", platform ? [ladder, platform] : [ladder]],
    ["the vehicle", [vehicleSolid]],
    ...structures.map((s) => [s.name, s.solids] as const),
  ];
  return things
    .filter(
      ([name, solids]) =>
        !told.includes(name) &&
        solids.some((one) => boxDistanceSquared(box.bounds, one.bounds) === 0 && clearance(box, one).touching),
    )
    .map(([name]) => ({
      kind: `way/${name}`,
      status: "over",
      size: 1,
      says: [`the way of the load leads through ${name}.`],
    }));
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
