import { asSite, distance } from "@gantline/engine";
import { insideOutline } from "../edit/surface-below.ts";
import type { Plan } from "../schema/plan.ts";
import type { Scene, Structure } from "../schema/scene.ts";

type Place = readonly [number, number, number];

/** An anchor of the plan so near is the one that is wanted, m. Planning choice, no source. */
const NEAR_M = 1;

/** Where the plan has anchors that are not the vehicle's. */
const groundAnchors = ({ rig }: Plan): readonly Place[] =>
  rig.mainLines
    .flatMap((l) => [...l.redirects.map((r) => r.anchorage), l.brake.anchorage])
    .flatMap((a) => (a.on === "ground" ? [a.position] : []));

/** Has the plan an anchor on top of a structure? */
export const hasAnchorOn = (plan: Plan, { outline, topZM }: Structure): boolean =>
  groundAnchors(plan).some(([x, y, z]) => z >= topZM - NEAR_M && insideOutline(outline, [x, y]));

/** Has the plan an anchor at a place? */
export const hasAnchorAt = (plan: Plan, at: Place): boolean =>
  groundAnchors(plan).some((one) => distance(asSite(one), asSite(at)) <= NEAR_M);

/** Does something keep an anchor from a place on the ground: a structure, water, a gap, ground to keep off? */
export const isBarred = ({ structures, areas }: Scene, [x, y]: Place): boolean =>
  [...structures, ...areas].some(({ outline }) => insideOutline(outline, [x, y]));
