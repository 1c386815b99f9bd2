import {
  add,
  clearance,
  forceInBeamAxes,
  type LetGoSystem,
  type Motion,
  orientedBox,
  type SiteVector,
  site,
  UP,
  ZERO,
} from "@gantline/engine";
import type { SolvedPlan } from "../solve-plan.ts";
import type { BeamParts, CaseMotion } from "./let-go-plan-types.ts";
import { TIP, tipOf, YOKE } from "./let-go-system.ts";
import { BELOW, floorOf, nameOfSolid } from "./load-stops.ts";

/** A sampled motion, with what each rigging point feels of it in the ladder's axes, and how near the load is to everything, at the same instants. */
export function caseMotion(situation: SolvedPlan, { nodes, stops, solids }: LetGoSystem, motion: Motion): CaseMotion {
  const load = nodes[YOKE]?.halfSizeM ?? [0, 0, 0];
  const places = motion.places[YOKE] ?? [];
  const nearestM: Record<string, number[]> = {};
  const see = (what: string, of: (at: SiteVector) => number): void => {
    const known = nearestM[what];
    nearestM[what] = places.map((at, i) => Math.min(known?.[i] ?? Number.POSITIVE_INFINITY, of(at)));
  };
  const floor = stops?.[floorOf(YOKE)];
  if (floor && !("planes" in floor)) see(BELOW, (at) => Math.max(0, at[2] - load[2] - floor.pointM[2]));
  for (const [id, solid] of Object.entries(solids ?? {}))
    see(nameOfSolid(situation.plan, id), (at) => clearance(orientedBox(at, AXES, load), solid).distanceM);
  return { ...motion, pointsN: pointsAlong(situation, motion), nearestM };
}

const AXES = [site(1, 0, 0), site(0, 1, 0), UP] as const;

/** By rigging point; with a tip that gives all of it at the first, as in the figures. */
function pointsAlong({ state, geometry }: SolvedPlan, { forcesN, timesS }: Motion): CaseMotion["pointsN"] {
  const mains = state?.mains ?? [];
  const shared = forcesN[TIP];
  const points = [...new Set(mains.map((m) => m.laid.point))];
  return Object.fromEntries(
    points.map((point, i) => {
      const ofLines = mains.flatMap(({ laid }) => {
        const force = laid.point === point ? forcesN[tipOf(laid.line.id)] : undefined;
        return force ? [force] : [];
      });
      const all = shared ? (i === 0 ? [shared] : []) : ofLines;
      return [
        point.id,
        timesS.map((_, k): BeamParts => {
          const { compressionN, normalN, lateralN, resultantN } = forceInBeamAxes(
            geometry.posed,
            all.reduce((sum, force) => add(sum, force[k] ?? ZERO), ZERO),
          );
          return { compressionN, normalN, lateralN, resultantN };
        }),
      ];
    }),
  );
}
