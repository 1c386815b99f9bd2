import { type Outline, parapetOutlines, type Stop, type StopPlane, type Triple } from "@gantline/engine";
import { groundLevel, insideOutline } from "../edit/surface-below.ts";
import { soundOutline } from "../place-geometry.ts";
import type { Structure } from "../schema/scene.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { convexParts, type PartCorner } from "./convex-parts.ts";

/** As much as a load may stand in what it stands on, m. */
const SUNK_M = 0.05;

/** The load's upright box: middle and half sizes, m. */
export interface LoadBox {
  readonly middle: readonly [number, number, number];
  readonly half: readonly [number, number, number];
}

/**
 * What bars the way of a node: the ground, level as it is below where the box starts, and every structure, its walls, its
 * roof and its parapets, on all sides.
 *
 * What the box starts in more deeply than it may stand in it does not bar it: there the drawing shows no room where there is some.
 *
 * @param raiseM all of it so much higher: what the engine's box is about hangs so much above the box's middle
 */
export function loadStops(
  { plan }: SolvedPlan,
  box: LoadBox,
  node: string,
  raiseM = 0,
): Readonly<Record<string, Stop>> {
  const { scene } = plan;
  const [x, y, z] = box.middle;
  const groundM = Math.min(groundLevel(scene, [x, y]), z - box.half[2]);
  const nodes = [node];
  return Object.fromEntries([
    [stopName(node, FLOOR), { pointM: [x, y, groundM + raiseM], normal: [0, 0, 1], nodes }] as const,
    ...scene.structures
      .filter((s) => soundOutline(s.outline))
      .flatMap((structure) =>
        bodiesOf(structure).flatMap((planes, i) =>
          depthM(planes, box) > SUNK_M
            ? []
            : [
                [
                  stopName(node, `structure/${structure.id}/${i}`),
                  { planes: raisedBody(planes, raiseM), nodes },
                ] as const,
              ],
        ),
      ),
  ]);
}

/** The node's own stops bear its name. */
const stopName = (node: string, what: string): string => `${node} on ${what}`;

/** The stop below the load. */
const FLOOR = "floor";
/** Name of the ground as a node's stop. */
export const floorOf = (node: string): string => stopName(node, FLOOR);
/** Which structure a node's stop is of; null: none, the ground. */
export function structureOfStop(stop: string): string | null {
  const at = stop.indexOf(" on structure/");
  return at < 0 ? null : stop.slice(at + " on structure/".length, stop.lastIndexOf("/"));
}

/** What a solid that is measured to is called, by its name in the system. */
export const nameOfSolid = ({ scene }: SolvedPlan["plan"], id: string): string =>
  id.startsWith("structure/") ? (scene.structures.find((s) => s.id === id.split("/")[1])?.name ?? id) : id;

/** What the load comes to lie on where no structure is below it. */
export const BELOW = "what is below";

/** The highest surface that the load is above: its level, m (of the load's own foot where that lies deeper), and what it is of. */
export function floorBelow(
  { scene }: SolvedPlan["plan"],
  { middle: [x, y, z], half }: LoadBox,
): { readonly levelM: number; readonly what: string } {
  const foot = z - half[2];
  const under = scene.structures.filter((s) => insideOutline(s.outline, [x, y]) && s.topZM <= foot + SUNK_M);
  const ground = { levelM: groundLevel(scene, [x, y]), what: BELOW };
  const highest = under.reduce(
    (top, { topZM, name }) => (topZM > top.levelM ? { levelM: topZM, what: name } : top),
    ground,
  );
  return { ...highest, levelM: Math.min(foot, highest.levelM) };
}

/** Level of the first that the load comes down on with any part of its box if it falls plumb, m: ground, roof or parapet. */
export function firstBelowM({ scene }: SolvedPlan["plan"], { middle: [x, y, z], half }: LoadBox): number {
  const foot = z - half[2];
  const tops = scene.structures
    .filter((s) => soundOutline(s.outline))
    .flatMap(bodiesOf)
    .flatMap((planes) => {
      const topM = planes[0]?.pointM[2] ?? Number.NEGATIVE_INFINITY;
      const onTop: LoadBox = { middle: [x, y, topM - TRIED_M + half[2]], half };
      return topM <= foot + SUNK_M && depthM(planes, onTop) > 0 ? [topM] : [];
    });
  return Math.min(foot, Math.max(groundLevel(scene, [x, y]), ...tops));
}

/** So deep in its top it is tried whether a box would come down on a body, m. */
const TRIED_M = 1e-3;

/** How deep a box is in a body, m; below 0: it is not. */
const depthM = (planes: readonly StopPlane[], { middle, half }: LoadBox): number =>
  -Math.max(
    ...planes.map(({ pointM, normal }) =>
      normal.reduce((gap, n, c) => gap + n * ((middle[c] ?? 0) - (pointM[c] ?? 0)) - Math.abs(n) * (half[c] ?? 0), 0),
    ),
  );

type Body = readonly StopPlane[];

/** Each body as last raised: one load has one height over many runs. */
const lastRaised = new WeakMap<Body, { readonly byM: number; readonly planes: Body }>();

function raisedBody(body: Body, by: number): Body {
  // What rounding makes of one load hung at one place and another is left out.
  const byM = Math.round(by * 1e9) / 1e9;
  const known = lastRaised.get(body);
  if (known?.byM === byM) return known.planes;
  const planes = body.map(({ pointM: [x, y, z], ...plane }): StopPlane => ({ ...plane, pointM: [x, y, z + byM] }));
  lastRaised.set(body, { byM, planes });
  return planes;
}

const built = new WeakMap<Structure, readonly Body[]>();

/** A structure as convex bodies: its own, then its parapets. Kept by its identity, as a plan's parts never change in place. */
function bodiesOf(structure: Structure): readonly Body[] {
  const known = built.get(structure);
  if (known) return known;
  const { outline, baseZM, topZM, parapetHeightM, parapetThicknessM } = structure;
  const bodies = [
    ...convexParts(outline).map((corners) => upright(corners, baseZM, topZM)),
    ...(parapetHeightM > 0
      ? parapetOutlines(outline, parapetThicknessM).flatMap((side) =>
          convexParts(side).map((corners) => upright(mitred(corners, side), topZM, topZM + parapetHeightM)),
        )
      : []),
  ];
  built.set(structure, bodies);
  return bodies;
}

/** Where two parapets meet at a corner neither has a side. Of each the second and the fourth are such. */
const mitred = (corners: readonly PartCorner[], [a, b, c, d]: Outline): readonly PartCorner[] =>
  corners.map((corner, i) => {
    const ends = [corner.at, corners[(i + 1) % corners.length]?.at];
    const isMitre = [
      [b, c],
      [d, a],
    ].some((side) => side.every((p) => p && ends.some((q) => q?.[0] === p[0] && q[1] === p[1])));
    return isMitre ? { ...corner, inner: true } : corner;
  });

/** A convex outline between two heights; planes to the four winds make the corners of an upright box beside it exact. */
function upright(corners: readonly PartCorner[], bottomM: number, topM: number): Body {
  const [first] = corners;
  if (!first) return [];
  const at = ([x, y]: readonly [number, number], z: number): Triple => [x, y, z];
  const winds = ([0, 1] as const).flatMap((axis) =>
    ([1, -1] as const).map((sign): StopPlane => {
      const k = corners.reduce(
        (best, { at: p }, i) => (sign * p[axis] > sign * (corners[best] ?? first).at[axis] ? i : best),
        0,
      );
      const beside = [corners[k], corners[(k - 1 + corners.length) % corners.length]];
      return {
        pointM: at((corners[k] ?? first).at, topM),
        normal: axis === 0 ? [sign, 0, 0] : [0, sign, 0],
        inner: beside.some((c) => c?.inner),
      };
    }),
  );
  return [
    { pointM: at(first.at, topM), normal: [0, 0, 1] },
    { pointM: at(first.at, bottomM), normal: [0, 0, -1] },
    ...corners.map(({ at: [ax, ay], inner }, i): StopPlane => {
      const [bx, by] = corners[(i + 1) % corners.length]?.at ?? [ax, ay];
      return { pointM: [ax, ay, topM], normal: [by - ay, ax - bx, 0], inner };
    }),
    ...winds,
  ];
}
