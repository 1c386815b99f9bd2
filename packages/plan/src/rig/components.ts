import { addScaled, asSite, norm, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { bridleLegs } from "./bridle.ts";
import type { Strength } from "./component-strengths.ts";
import { endPulls } from "./hanging-tag.ts";
import type { LaidRig } from "./lay-lines.ts";
import { loadParts, mainParts, type Part, tagParts, tetherParts } from "./load-path-parts.ts";
import { type ForceAt, mainForces, unsolvedForces } from "./main-forces.ts";
import { type RigState, sheaveOf } from "./rig-state.ts";
import type { LoadSum } from "./sum-load.ts";
import { tetherHandN } from "./tether-hand.ts";

/** One part of a load path and what it carries. */
export interface Component extends Strength {
  readonly id: string;
  /** "Main A, sheave at the tip". */
  readonly subject: string;
  /** Worst over the travel cases, N; null: not known. */
  readonly forceN: number | null;
  readonly at: SiteVector;
  readonly field: string;
  /** What of it stays the same whatever it carries. */
  readonly part: object;
}

/** Every component in every load path, with the force it carries. */
export function listComponents(
  plan: Plan,
  state: RigState,
  sum: LoadSum,
  cases: readonly TravelCase[],
): readonly Component[] {
  const total = state.mains.reduce(
    (s, m) => addScaled(s, unit(subtract(sheaveOf(m), state.yoke)), m.tensionsN.raise[0] ?? 0),
    ZERO,
  );
  const found: Component[] = [];
  const at = state.yoke;
  const leg = { at, forceN: bridleLegs(plan, sum.weightN).forceN };
  carried(found, loadParts(plan), { yoke: { at, forceN: norm(total) }, leg, weight: { at, forceN: sum.weightN } });
  for (const [i, m] of state.mains.entries()) carried(found, mainParts(plan, m.laid.line, i), mainForces(m, cases));
  for (const [i, t] of state.tags.entries()) {
    const { loadN, handsN } = endPulls(t, at);
    const most = { at, forceN: Math.max(loadN, handsN) };
    carried(found, tagParts(plan, t.laid.line, i), { load: { at, forceN: loadN }, most });
  }
  if (state.tether) {
    const { laid, pulleyAt, tensionN } = state.tether;
    const hand = { at: pulleyAt, forceN: tetherHandN(state.tether) };
    carried(found, tetherParts(plan, laid.line), { pull: { at: pulleyAt, forceN: tensionN }, hand });
  }
  return found;
}

/** The same components where nothing could be solved: what each carries is not known. */
export function listUnsolvedComponents(plan: Plan, laid: LaidRig): readonly Component[] {
  const { load, mainLines, taglines, tether } = plan.rig;
  const unknown: ForceAt = { at: asSite(load.positionM), forceN: null };
  const found: Component[] = [];
  carried(found, loadParts(plan), { yoke: unknown, leg: unknown, weight: unknown });
  for (const [i, line] of mainLines.entries()) {
    const own = laid.mains.find((m) => m.line.id === line.id) ?? null;
    carried(found, mainParts(plan, line, i), unsolvedForces(line, own, unknown.at));
  }
  for (const [i, line] of taglines.entries()) carried(found, tagParts(plan, line, i), { load: unknown, most: unknown });
  if (tether) carried(found, tetherParts(plan, tether), { pull: unknown, hand: unknown });
  return found;
}

/** Written out: several thousand are made in a sweep, and spreading objects into each other took a good part of it. */
function carried<F>(found: Component[], parts: readonly Part<F>[], forces: F): void {
  for (const part of parts) {
    const { id, subject, field, strengthN, basis, reductions, strengthSource } = part;
    const { at, forceN } = part.carries(forces);
    found.push({ id, subject, forceN, at, strengthN, basis, reductions, strengthSource, field, part });
  }
}
