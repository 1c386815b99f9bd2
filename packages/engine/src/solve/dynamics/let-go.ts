import { lentFloats, takeBack } from "../../numerics/lent-floats.ts";
import { compileSystem } from "./compile-system.ts";
import { followMotion } from "./follow-motion.ts";
import type { LetGoFailure, LetGoOptions, LetGoOutcome, LetGoSystem } from "./let-go-types.ts";

const TOLERANCE = 1e-6;
const DURATION_S = 20;
const MOST_SAMPLES = 120;
/** A motion whose energy book is open by more than this is followed again more finely, down to the finest. */
const BOOK_SHARE = 1e-3;
/** What is left open goes about as the tolerance: it is to be closed to this part of what it may be, by a tenth of the tolerance at most each time. */
const CLOSED = 0.5;
const FINEST = 1e-10;

/**
 * A line goes: what do the others take, where does the load go, and what does each place feel?
 *
 * Point masses on massless straight ropes that stretch, do not push, and remember what their sheaves and brakes held;
 * followed by an adaptive Runge–Kutta method that stops at whatever changes the rules. Exact for that model but for the
 * tolerance: at the usual one peaks are good to about 1e-5 of themselves. Knots that tighten, edges, the age of ropes,
 * the mass of ropes and how a real brake or a real ladder moves are not in it. See `docs/theory/let-go.md`.
 *
 * @param cut name or names of the lines that go, all at once; none: what moves is the load as it was
 * @returns peaks, way, energies and a sampled motion; or a failure that names the field or the node
 * Source: Newton's second law, Kelvin–Voigt ropes, capstan equation at sheaves.
 */
export function letGo(system: LetGoSystem, cut: string | readonly string[], options: LetGoOptions = {}): LetGoOutcome {
  const cuts = typeof cut === "string" ? [cut] : cut;
  const replay = { system, cut: cuts, options };
  const fail = (code: LetGoFailure["code"], where: string, hint: string): LetGoFailure => ({
    ok: false,
    code,
    where,
    hint,
    replay,
  });
  const { tolerance = TOLERANCE, durationS = DURATION_S, mostSamples = MOST_SAMPLES, sampleForces = false } = options;
  if (!(tolerance >= 1e-12 && tolerance <= 1e-2)) return fail("bad-input", "tolerance", "Between 1e-12 and 1e-2.");
  if (!(durationS > 0 && durationS <= 600)) return fail("bad-input", "durationS", "Above 0, and 600 s at most.");
  if (!(Number.isInteger(mostSamples) && mostSamples >= 2))
    return fail("bad-input", "mostSamples", "A whole number of 2 or more.");
  for (let finer = tolerance; ; ) {
    const rig = compileSystem(system, cuts);
    if ("code" in rig) return fail(rig.code, rig.where, rig.hint);
    const lent = lentFloats();
    let found: ReturnType<typeof followMotion>;
    try {
      found = followMotion(rig, system.solids ?? {}, { tolerance: finer, durationS, mostSamples, sampleForces });
    } finally {
      takeBack(lent);
    }
    if (!found.ok) return fail(found.code, found.where, HINTS[found.code]);
    if (found.energy.closureShare <= BOOK_SHARE) return found;
    if (finer <= FINEST) return fail("not-converged", system.load, HINTS["not-converged"]);
    finer *= Math.max(0.1, (CLOSED * BOOK_SHARE) / found.energy.closureShare);
  }
}

const HINTS = {
  "nothing-holds": "The load falls farther than any rope left over could reach. Nothing that is left holds it.",
  "not-converged": "The motion could not be followed within the steps allowed. Nothing is told of it.",
} as const;
