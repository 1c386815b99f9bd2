import { add, lerp, type SiteVector, site, subtract } from "@gantline/engine";
import {
  type Evaluation,
  type Evolution,
  evaluateAt,
  type Moment,
  type Plan,
  stageWay,
  wayLengthM,
} from "@gantline/plan";

/** The space a stage takes up, in site points: draw it in any view with `drawSwept`. */
export interface SweptStage {
  readonly stage: number;
  /** The corners of the load's box at places along its way, in order; between two of them it goes straight. */
  readonly load: readonly (readonly SiteVector[])[];
  /** The nodes of each rope, and of a tagline the places it hangs at, at moments along the stage, in order. */
  readonly ropes: readonly {
    readonly id: string;
    readonly name: string;
    readonly role: Evaluation["lines"][number]["role"];
    readonly places: readonly (readonly { readonly id: string; readonly at: SiteVector }[])[];
  }[];
}

/** Moments of a stage at which the ropes are laid out, beside its way points. */
const ROPE_MOMENTS = 6;

/**
 * What space do the load and every rope take up over each stage? Stages with nothing on the ropes take up none.
 *
 * The load's box goes where the sweep found it to hang, and round every way point; the ropes are laid out at a few moments
 * of the stage and at its way points. Worked once for an evolution (under ten evaluations a stage), drawn as often as liked.
 */
export function sweptStages(plan: Plan, evolution: Evolution): readonly SweptStage[] {
  return evolution.stages.flatMap(({ stage, moments: [first, last] }, index): SweptStage[] => {
    if (stage.aboard.length === 0) return [];
    const moments = evolution.moments.slice(first, last + 1);
    const laid = alongsToLay(plan, index, moments).map((along) => ({
      along,
      evaluation: evaluateAt(plan, { stage: index, along }),
    }));
    const some = laid[0]?.evaluation.load;
    if (!some) return [];
    const yokes = [
      ...moments.map((m) => ({ along: m.when.along, yoke: m.yoke })),
      ...laid.map(({ along, evaluation }) => ({ along, yoke: evaluation.load.yoke })),
    ].sort((a, b) => a.along - b.along);
    const load = yokes.map(({ yoke }) => {
      const by = subtract(yoke, some.yoke);
      return some.box.vertices.map((v) => add(v, by));
    });
    return [{ stage: index, load, ropes: ropesOf(laid.map((l) => l.evaluation)) }];
  });
}

/** Some moments of the sweep, first and last among them, and the way points, in order. */
function alongsToLay(plan: Plan, stage: number, moments: readonly Moment[]): readonly number[] {
  const steps = Math.max(1, Math.min(ROPE_MOMENTS, moments.length) - 1);
  const spread = Array.from(
    { length: steps + 1 },
    (_, k) => moments[Math.round((k / steps) * (moments.length - 1))]?.when.along ?? 0,
  );
  const way = stageWay(plan, stage);
  const whole = wayLengthM(way);
  const points = whole > 0 ? way.map((_, k) => wayLengthM(way.slice(0, k + 1)) / whole) : [];
  return [...new Set([...spread, ...points])].sort((a, b) => a - b);
}

function ropesOf(evaluations: readonly Evaluation[]): SweptStage["ropes"] {
  const found = new Map<
    string,
    { id: string; name: string; role: Evaluation["lines"][number]["role"]; places: { id: string; at: SiteVector }[][] }
  >();
  for (const { lines } of evaluations) {
    for (const line of lines) {
      const { id, name, role } = line;
      const rope = found.get(id) ?? { id, name, role, places: [] };
      rope.places.push(placesOf(line));
      found.set(id, rope);
    }
  }
  return [...found.values()];
}

/** A tagline is laid out at so many places, however many pieces it hangs in: each has its like at every moment. */
const HANGING_PLACES = 17;

/** The nodes of a rope; of a tagline that hangs by its own weight, places along it, evenly apart in its pieces. */
function placesOf({ role, nodes, hangs }: Evaluation["lines"][number]): { id: string; at: SiteVector }[] {
  if (role !== "tagline") return nodes.map(({ id, at }) => ({ id, at }));
  const pieces = hangs ?? nodes.map((n) => n.at);
  return Array.from({ length: HANGING_PLACES }, (_, i) => {
    const along = (i / (HANGING_PLACES - 1)) * (pieces.length - 1);
    const k = Math.min(Math.floor(along), pieces.length - 2);
    const [a, b] = [pieces[k], pieces[k + 1]];
    return { id: `${i}`, at: a && b ? lerp(a, b, along - k) : (nodes[0]?.at ?? site(0, 0, 0)) };
  });
}
