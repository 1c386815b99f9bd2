import {
  addScaled,
  boxDistanceSquared,
  clearance,
  distance,
  lerp,
  type SiteVector,
  type Solid,
  site,
} from "@gantline/engine";
import type { Geometry } from "./evaluation.ts";
import { placeLoad } from "./place-geometry.ts";
import type { Plan } from "./schema/plan.ts";

/** The way of a load let go: plumb to where its ropes are taut, then along the arc through plumb to the far side. */
export interface SwingWay {
  /** The yoke as it is held. */
  readonly heldAt: SiteVector;
  readonly pivot: SiteVector;
  /** From pivot to the middle of the mass, and from there up to the yoke, m. */
  readonly ropeM: number;
  readonly belowM: number;
  /** Level unit vector from where it is held toward plumb; zero where it is held plumb. */
  readonly onward: SiteVector;
  /** Angles from plumb at which the ropes are taut, and at the far end, rad. */
  readonly heldRad: number;
  readonly farRad: number;
}

/** Nearest found to within this, m. */
const WITHIN_M = 0.01;

/** Where the yoke is on the arc at an angle from plumb, rad; negative on the side it was held. */
function onArc({ pivot, ropeM, belowM, onward }: SwingWay, angleRad: number): SiteVector {
  const z = pivot[2] - ropeM * Math.cos(angleRad) + belowM;
  return addScaled(site(pivot[0], pivot[1], z), onward, ropeM * Math.sin(angleRad));
}

/** Places of the yoke along the arc, evenly apart in angle, from where it is held. */
export const wayPlaces = (way: SwingWay, count: number): readonly SiteVector[] => [
  way.heldAt,
  ...Array.from({ length: count - 1 }, (_, k) =>
    onArc(way, -way.heldRad + ((way.heldRad + way.farRad) * (k + 1)) / (count - 1)),
  ),
];

/** How far a thing is from the load's box, wherever on its way, and which. */
export interface OnWay {
  readonly clearanceM: number;
  readonly nearestTo: string;
}

/**
 * How near does the load come to a structure, to ladder, platform or vehicle on its way?
 *
 * The box moves without turning, so from place to place its distance changes by no more than the way between them: between two
 * places it is looked at again only where that lets it be nearer than found by more than a centimetre.
 *
 * @param beyondM not looked for where it can be no nearer than this
 * @returns null where nothing stands about, or nothing is nearer than `beyondM`
 */
export function nearestOnWay(
  plan: Plan,
  geometry: Geometry,
  way: SwingWay,
  beyondM = Number.POSITIVE_INFINITY,
): OnWay | null {
  const things = reachable(plan, geometry, way, beyondM);
  if (things.length === 0) return null;
  const taut = onArc(way, -way.heldRad);
  const firstM = distance(way.heldAt, taut);
  const wholeM = firstM + way.ropeM * (way.heldRad + way.farRad);
  const yokeAt = (alongM: number): SiteVector =>
    alongM < firstM
      ? lerp(way.heldAt, taut, alongM / firstM)
      : onArc(way, -way.heldRad + (alongM - firstM) / way.ropeM);
  let nearest: OnWay | null = null;
  let least = beyondM;
  const look = (alongM: number): number => {
    const { box } = placeLoad(plan, yokeAt(alongM));
    let here = Number.MAX_VALUE;
    for (const { name, solid } of things) {
      if (boxDistanceSquared(box.bounds, solid.bounds) >= here ** 2) continue;
      const { distanceM } = clearance(box, solid);
      here = Math.min(here, distanceM);
      if (distanceM >= least) continue;
      least = distanceM;
      nearest = { clearanceM: distanceM, nearestTo: name };
    }
    return here;
  };
  const between = (fromM: number, atFrom: number, toM: number, atTo: number): void => {
    if ((atFrom + atTo - (toM - fromM)) / 2 >= least - WITHIN_M) return;
    const middleM = (fromM + toM) / 2;
    const atMiddle = look(middleM);
    between(fromM, atFrom, middleM, atMiddle);
    between(middleM, atMiddle, toM, atTo);
  };
  between(0, look(0), wholeM, look(wholeM));
  return nearest;
}

/** What stands about, as far as it is nearer to the upright box round the whole way than `beyondM`. */
function reachable(plan: Plan, geometry: Geometry, way: SwingWay, beyondM: number) {
  const ends = [way.heldAt, onArc(way, -way.heldRad), onArc(way, 0), onArc(way, way.farRad)];
  const { box } = placeLoad(plan, way.heldAt);
  const grown = (pick: (...values: number[]) => number, side: SiteVector): SiteVector =>
    site(
      ...([0, 1, 2].map((axis) => {
        const here = way.heldAt[axis] ?? 0;
        return (side[axis] ?? 0) - here + pick(...ends.map((e) => e[axis] ?? 0));
      }) as [number, number, number]),
    );
  const round = { min: grown(Math.min, box.bounds.min), max: grown(Math.max, box.bounds.max) };
  const things: { readonly name: string; readonly solid: Solid }[] = [
    ...geometry.structures.flatMap((s) => s.solids.map((solid) => ({ name: s.name, solid }))),
    { name: "Ladder", solid: geometry.ladder },
    ...(geometry.platform ? [{ name: "Platform", solid: geometry.platform }] : []),
    { name: "Vehicle", solid: geometry.vehicleSolid },
  ];
  return things.filter(({ solid }) => boxDistanceSquared(round, solid.bounds) < beyondM ** 2);
}
