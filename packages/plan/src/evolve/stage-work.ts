import { distance, type SiteVector, ZERO } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { Situation } from "../situation.ts";
import type { LineRun, StageWork } from "./evolution-types.ts";

/** One rope at one moment: its parts from the load on, m, and the tension of each for both ways of travel, N. */
interface WorkRope {
  readonly id: string;
  readonly name: string;
  readonly isMain: boolean;
  readonly partsM: readonly number[];
  readonly tensionsN: Readonly<Record<TravelCase, readonly number[]>>;
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
      isMain: l.role === "main",
      partsM: l.nodes.slice(1).map((n, i) => distance(n.at, l.nodes[i]?.at ?? n.at)),
      tensionsN: l.tensionsN,
      stiffnessN: stiffness.get(l.id) ?? null,
    })),
  };
}

const times = (value: number | null, by: number): number | null => (value === null ? null : value * by);

/**
 * Work over a stage and how its main lines run; null where not solved throughout.
 *
 * From moment to moment each rope runs one way, and has the tensions of that way: taken in, they rise from the load to the
 * hands; let out, they fall. Put in: the tension at hands or brake over the rope that comes in there, stretched as it is, less
 * the stretch's energy it takes away. Friction: at each sheave the step of tension there over the rope that runs across it, so
 * never less than nothing. Gained: the weight of load and of the rope that
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
    for (const before of a.ropes) {
      const after = b.ropes.find((r) => r.id === before.id);
      if (!after) return null;
      const step = ropeStep(before, after);
      work.putInJ += step.putInJ;
      work.frictionJ += step.frictionJ;
      work.strainJ += step.strainJ;
      if (!before.isMain) continue;
      const { id: lineId, name } = before;
      const run = runs.get(lineId) ?? { lineId, name, takenInM: 0, letOutM: 0 };
      runs.set(lineId, run);
      if (step.takenInM > 0) run.takenInM += step.takenInM;
      else run.letOutM -= step.takenInM;
    }
  }
  return points.length > 1 ? { work, runs: [...runs.values()] } : null;
}

const sum = (xs: readonly number[]): number => xs.reduce((a, b) => a + b, 0);

function ropeStep(before: WorkRope, after: WorkRope) {
  const takenInM = sum(before.partsM) - sum(after.partsM);
  const travel: TravelCase = takenInM >= 0 ? "raise" : "lower";
  const [a, b] = [before.tensionsN[travel], after.tensionsN[travel]];
  let frictionJ = 0;
  // What runs over a sheave is what the parts before it give up.
  let acrossM = 0;
  for (let k = 1; k < a.length; k++) {
    acrossM += (before.partsM[k - 1] ?? 0) - (after.partsM[k - 1] ?? 0);
    const stepN = ((a[k] ?? 0) - (a[k - 1] ?? 0) + (b[k] ?? 0) - (b[k - 1] ?? 0)) / 2;
    frictionJ += stepN * acrossM;
  }
  const handsN = ((a.at(-1) ?? 0) + (b.at(-1) ?? 0)) / 2;
  if (before.stiffnessN === null) return { takenInM, putInJ: handsN * takenInM, frictionJ, strainJ: 0 };
  const [from, to] = [stretched(before, a, before.stiffnessN), stretched(after, b, before.stiffnessN)];
  const atHands = handsN + handsN ** 2 / (2 * before.stiffnessN);
  return {
    takenInM,
    putInJ: atHands * (from.unstretchedM - to.unstretchedM),
    frictionJ,
    strainJ: to.energyJ - from.energyJ,
  };
}

/** A rope's length with no tension in it, and the energy that its stretch holds. */
function stretched({ partsM }: WorkRope, tensionsN: readonly number[], stiffnessN: number) {
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
