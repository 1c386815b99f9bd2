import { type SiteVector, ZERO } from "@gantline/engine";
import type { Situation } from "../situation.ts";
import type { StageResult } from "./evolution-types.ts";

/** What the work of a stage is summed from: every rope's path, its tension at the load and at the hands or brake. */
export interface WorkPoint {
  readonly yoke: SiteVector;
  /** Of the load, and of the rope that hangs with it at the yoke. */
  readonly weightN: number;
  readonly windN: SiteVector;
  readonly ropes: readonly {
    readonly id: string;
    readonly pathM: number;
    readonly atLoadN: number;
    readonly atHandsN: number;
  }[];
}

/** null: nothing was solved at this moment. */
export function workPoint(s: Situation): WorkPoint | null {
  if (s.state === null || s.load.weightN === null) return null;
  const travel = s.cases[0] ?? "raise";
  // At rest friction gives and takes nothing; the ropes are then worked without it.
  const still = s.cases.length > 1;
  return {
    yoke: s.load.yoke,
    weightN: s.load.weightN + s.state.ropesAtYokeN,
    windN: s.load.windN ?? ZERO,
    ropes: s.lines.map((l) => {
      const along = l.tensionsN[travel];
      const atLoadN = along[0] ?? 0;
      return { id: l.id, pathM: l.pathM, atLoadN, atHandsN: still ? atLoadN : (along.at(-1) ?? atLoadN) };
    }),
  };
}

/**
 * Work over a stage, J: what haul teams and hands put in (less what they let out), what the load, and the
 * rope that hangs with it at the yoke, gained in height and against the wind, and what sheaves took. The three close by virtual work when every moment is in balance.
 * Rope counts by the change of its geometric path, so that its stretch cancels.
 */
export function stageWork(points: readonly (WorkPoint | null)[]): StageResult["work"] {
  let putInJ = 0;
  let gainedJ = 0;
  let frictionJ = 0;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b) return null;
    gainedJ += ((a.weightN + b.weightN) / 2) * (b.yoke[2] - a.yoke[2]);
    for (const axis of [0, 1, 2] as const)
      gainedJ -= ((a.windN[axis] + b.windN[axis]) / 2) * (b.yoke[axis] - a.yoke[axis]);
    for (const rope of a.ropes) {
      const after = b.ropes.find((r) => r.id === rope.id);
      if (!after) return null;
      const takenInM = rope.pathM - after.pathM;
      putInJ += ((rope.atHandsN + after.atHandsN) / 2) * takenInM;
      frictionJ += ((rope.atHandsN - rope.atLoadN + after.atHandsN - after.atLoadN) / 2) * takenInM;
    }
  }
  return points.length > 1 ? { putInJ, gainedJ, frictionJ } : null;
}
