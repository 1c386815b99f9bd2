import { distance, type SiteVector, ZERO } from "@gantline/engine";
import type { RunningLine, TravelCase } from "../evaluation.ts";
import type { Situation } from "../situation.ts";
import type { LineRun, StageWork } from "./evolution-types.ts";

type OfTravel = Readonly<Record<TravelCase, readonly number[]>>;

/** One rope at one moment, for both ways the main lines can travel: its parts from the load on, m, and the tension of each, N. */
interface WorkRope {
  readonly id: string;
  readonly name: string;
  readonly role: RunningLine["role"];
  /** As it is drawn, m. */
  readonly pathM: number;
  readonly partsM: OfTravel;
  readonly tensionsN: OfTravel;
  /** Of the rope; null: not known, taken as unstretched. */
  readonly stiffnessN: number | null;
}

/** What the work of a stage is summed from. */
export interface WorkPoint {
  readonly yoke: SiteVector;
  /** Of the load, and of the rope that hangs with it at the yoke. */
  readonly weightN: number;
  readonly windN: SiteVector;
  readonly ropes: readonly WorkRope[];
}

/** null: nothing was solved at this moment. */
export function workPoint(s: Situation): WorkPoint | null {
  if (s.state === null || s.load.weightN === null) return null;
  const { mains, tags, tether } = s.state;
  const stiffness = new Map<string, number | null>([
    ...[...mains, ...tags].map(({ laid }) => [laid.line.id, laid.rope?.staticStiffnessN ?? null] as const),
    ...(tether
      ? [[tether.laid.line.id, times(tether.laid.rope?.staticStiffnessN ?? null, tether.laid.line.parts)] as const]
      : []),
  ]);
  return {
    yoke: s.load.yoke,
    weightN: s.load.weightN + s.state.ropesAtYokeN,
    windN: s.load.windN ?? ZERO,
    ropes: s.lines.map((l) => ({
      id: l.id,
      name: l.name,
      role: l.role,
      pathM: l.pathM,
      partsM: { raise: partsM(l, tether?.ridesAt?.[0]), lower: partsM(l, tether?.ridesAt?.[1]) },
      tensionsN: l.tensionsN,
      stiffnessN: stiffness.get(l.id) ?? null,
    })),
  };
}

const times = (value: number | null, by: number): number | null => (value === null ? null : value * by);

/** Parts of a rope from the load on, m, with the tether's pulley where it rides in one way of travel. */
function partsM({ nodes }: RunningLine, rider: SiteVector | undefined): readonly number[] {
  const places = nodes.map(({ id, at }) => (id === "rider" && rider ? rider : at));
  return places.slice(1).map((at, i) => distance(at, places[i] ?? at));
}

/**
 * Work over a stage and how its main lines run; null where not solved throughout.
 *
 * From moment to moment each main line runs one way, and has the tensions of that way: taken in, they rise from the load to
 * the hands; let out, they fall. A tether ties the main lines to each other, so with one all ropes have pulls, and its pulley
 * the place, of one way, which is that of both main lines together. Put in: the tension at hands or brake over the rope that
 * comes in there, stretched as it is, less the stretch's energy it takes away. Friction: at each sheave the step of tension
 * there over the rope that runs across it. Gained: the weight of load and of the rope that
 * hangs with it at the yoke over height, and the way against the wind. Strain: what the stretch holds. With
 * every moment in balance, put in = gained + friction + strain.
 */
export function stageWork(
  points: readonly (WorkPoint | null)[],
): { readonly work: StageWork; readonly runs: readonly LineRun[] } | null {
  const work = { putInJ: 0, gainedJ: 0, frictionJ: 0, strainJ: 0 };
  const runs = new Map<string, { lineId: string; name: string; takenInM: number; letOutM: number }>();
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b) return null;
    work.gainedJ += ((a.weightN + b.weightN) / 2) * (b.yoke[2] - a.yoke[2]);
    for (const axis of [0, 1, 2] as const)
      work.gainedJ -= ((a.windN[axis] + b.windN[axis]) / 2) * (b.yoke[axis] - a.yoke[axis]);
    const travelOf = travels(a, b);
    for (const before of a.ropes) {
      const after = b.ropes.find((r) => r.id === before.id);
      if (!after) return null;
      const step = ropeStep(before, after, travelOf(before, after));
      work.putInJ += step.putInJ;
      work.frictionJ += step.frictionJ;
      work.strainJ += step.strainJ;
      if (before.role !== "main") continue;
      const { id: lineId, name } = before;
      const run = runs.get(lineId) ?? { lineId, name, takenInM: 0, letOutM: 0 };
      runs.set(lineId, run);
      const takenInM = before.pathM - after.pathM;
      if (takenInM > 0) run.takenInM += takenInM;
      else run.letOutM -= takenInM;
    }
  }
  return points.length > 1 ? { work, runs: [...runs.values()] } : null;
}

const sum = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0);

const wayOf = (takenInM: number): TravelCase => (takenInM >= 0 ? "raise" : "lower");

/** Which way does each rope travel from one moment to the next? */
function travels(a: WorkPoint, b: WorkPoint): (before: WorkRope, after: WorkRope) => TravelCase {
  if (!a.ropes.some((r) => r.role === "tether")) return (before, after) => wayOf(before.pathM - after.pathM);
  const mainsM = ({ ropes }: WorkPoint): number => sum(ropes.map((r) => (r.role === "main" ? r.pathM : 0)));
  const together = wayOf(mainsM(a) - mainsM(b));
  return () => together;
}

function ropeStep(before: WorkRope, after: WorkRope, travel: TravelCase) {
  const [from, to] = [before.partsM[travel], after.partsM[travel]];
  const [a, b] = [before.tensionsN[travel], after.tensionsN[travel]];
  let frictionJ = 0;
  // What runs over a sheave is what the parts before it give up.
  let acrossM = 0;
  for (let k = 1; k < a.length; k++) {
    acrossM += (from[k - 1] ?? 0) - (to[k - 1] ?? 0);
    const stepN = ((a[k] ?? 0) - (a[k - 1] ?? 0) + (b[k] ?? 0) - (b[k - 1] ?? 0)) / 2;
    frictionJ += stepN * acrossM;
  }
  const handsN = ((a.at(-1) ?? 0) + (b.at(-1) ?? 0)) / 2;
  if (before.stiffnessN === null) return { putInJ: handsN * (sum(from) - sum(to)), frictionJ, strainJ: 0 };
  const [was, is] = [stretched(from, a, before.stiffnessN), stretched(to, b, before.stiffnessN)];
  const atHands = handsN + handsN ** 2 / (2 * before.stiffnessN);
  return {
    putInJ: atHands * (was.unstretchedM - is.unstretchedM),
    frictionJ,
    strainJ: is.energyJ - was.energyJ,
  };
}

/** A rope's length with no tension in it, and the energy that its stretch holds. */
function stretched(partsM: readonly number[], tensionsN: readonly number[], stiffnessN: number) {
  let unstretchedM = 0;
  let energyJ = 0;
  for (const [k, lengthM] of partsM.entries()) {
    const tensionN = tensionsN[k] ?? 0;
    const restM = lengthM / (1 + tensionN / stiffnessN);
    unstretchedM += restM;
    energyJ += (tensionN ** 2 / (2 * stiffnessN)) * restM;
  }
  return { unstretchedM, energyJ };
}
