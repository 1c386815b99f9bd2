import { type Catenary, catenaryPoints, type SiteVector, STANDARD_GRAVITY_MS2 } from "@gantline/engine";
import type { RunningLine } from "../evaluation.ts";
import type { TagState } from "./rig-state.ts";

type Hang = Pick<RunningLine, "sagM" | "hangs" | "hangUnknown">;

/** Main lines and tether are taken as straight: what they carry is many times their weight. */
export const STRAIGHT: Hang = { sagM: null, hangs: null, hangUnknown: null };

/** A piece of a hanging rope lies at most about this far from the rope itself, m. */
const PIECE_WITHIN_M = 0.005;
const MOST_PIECES = 40;

/**
 * How a tagline hangs by its own weight, as places along it; or why that is not known.
 *
 * @param hung the catenary of its pull; without stretch, which would make it a little lighter and sag less
 */
export function howItHangs({ laid, tensionN }: TagState, yoke: SiteVector, hung: Catenary | null): Hang {
  const massKgM = laid.rope?.linearMassKgM ?? null;
  if (massKgM === null) return unknown("the weight of its rope is not known");
  if (tensionN <= 0) return unknown("nothing pulls it. Keep a steady pull on it, or take it off the load");
  if (hung === null) return unknown("pulled so little, its own weight drags it down. Pull harder");
  const { lengthM, sagM } = hung;
  if (sagM <= PIECE_WITHIN_M) return { sagM, hangs: [yoke, laid.handsAt], hangUnknown: null };
  const rope = { lengthM, weightNM: massKgM * STANDARD_GRAVITY_MS2, axialStiffnessN: null };
  // The chords of a parabola cut in n even pieces lie a n²-th of its sag from it.
  const pieces = Math.min(MOST_PIECES, Math.ceil(Math.sqrt(sagM / PIECE_WITHIN_M)));
  const hangs = catenaryPoints(rope, yoke, laid.handsAt, pieces + 1);
  return hangs.length > 0 ? { sagM, hangs, hangUnknown: null } : unknown("it cannot be worked out");
}

const unknown = (why: string): Hang => ({ sagM: null, hangs: null, hangUnknown: `Not known how it hangs: ${why}.` });
