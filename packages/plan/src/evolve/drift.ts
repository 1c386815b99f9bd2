import { bearingOf, distance, subtract } from "@gantline/engine";
import type { SetLength } from "../rig/rig-state.ts";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import type { StageProblem } from "./evolution-types.ts";
import { missingPullN } from "./missing-pull.ts";

/** Where a load that is not held goes, what to say of it, and the pull that is missing. */
export interface Drift {
  /** From where it is wanted, m. */
  readonly size: number;
  readonly says: Phrase;
  readonly drift: NonNullable<StageProblem["drift"]>;
}

/** Of a load that its lines let hang elsewhere than its way has it. */
export function driftOf(s: Situation): Drift {
  const { wanted } = s.load;
  const goesTo = s.load.yoke;
  const on = s.state?.groundN ? groundBelow(s) : null;
  const aside = subtract(goesTo, wanted);
  const missingN = missingPullN(s);
  const why = (s.state?.set ?? []).flatMap(setSays);
  const level = Math.hypot(aside[0], aside[1]);
  const ends: Phrase =
    on === null
      ? [", and hang with the yoke at height ", { value: goesTo[2], quantity: "length" }, "."]
      : [`, and come down on ${on}.`];
  return {
    size: distance(wanted, goesTo),
    says: [
      "nothing holds the load on its way; it would go ",
      { value: distance(wanted, goesTo), quantity: "length" },
      " aside",
      ...(level > NEAR_M ? [", toward bearing ", { value: bearingOf(aside), quantity: "angle" } as const] : []),
      ...ends,
      ...(why.length > 0 ? why : missingSays(missingN, s.laid.tether !== null)),
    ],
    drift: { goesTo, missingN },
  };
}

/** What a load would come down on. */
export const groundBelow = ({ loadHeight }: Situation): string => loadHeight.over ?? "the ground";

/** A line that is longer or shorter than it would have to be by less than this is not what keeps the load away, m. */
const FITS_M = 0.02;

/** By how much a line that keeps its length is too long or too short for the load to hang where it is wanted. */
function setSays({ name, why, lengthM, neededM }: SetLength): Phrase {
  const is = { value: lengthM, quantity: "length" } as const;
  const end: Phrase =
    why === "madeFast"
      ? [` ${name} is made fast at `, is]
      : [` The tackle of ${name} ${why === "runOut" ? "runs out" : "is drawn together"} at `, is];
  if (neededM === null) return [...end, why === "madeFast" ? "." : ": it brings the load no further in."];
  const offM = { value: Math.abs(lengthM - neededM), quantity: "length" } as const;
  if (offM.value < FITS_M) return [];
  const needs: Phrase = [...end, ", and ", { value: neededM, quantity: "length" }, " is needed: "];
  return [...needs, offM, lengthM > neededM ? " too long." : " too short."];
}

/** A level distance smaller than this has no bearing to tell, m. */
const NEAR_M = 0.01;
/** A pull flatter than this is told by its bearing alone. */
const LEVEL_RAD = 0.05;

/** The pull that is missing, in words; empty: none, or not known. */
export function missingSays(missingN: ReturnType<typeof missingPullN>, tethered: boolean): Phrase {
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
