import { pointInPolygon, type Stop } from "@gantline/engine";
import { groundLevel, insideOutline } from "../edit/surface-below.ts";
import { soundOutline } from "../place-geometry.ts";
import type { Structure } from "../schema/scene.ts";
import type { Situation } from "../situation.ts";

/** A wall farther off than this is none to the load, m. Planning choice, no source. */
const WALL_WITHIN_M = 6;
/** As much as a load may stand in what it stands on, m. */
const SUNK_M = 0.05;

/** The load's upright box: middle and half sizes, m. */
export interface LoadBox {
  readonly middle: readonly [number, number, number];
  readonly half: readonly [number, number, number];
}

/**
 * What stops the load: the surface below it and the faces of walls beside it, as planes.
 *
 * A wall counts where the load is in front of one of its faces, below its top; its plane is taken to go on beyond the face,
 * which holds as long as the load stays in front of it. What the load stands on when it starts is no deeper than the load.
 */
export function loadStops({ plan }: Situation, box: LoadBox): Readonly<Record<string, Stop>> {
  const { structures } = plan.scene;
  return {
    [FLOOR]: { pointM: [box.middle[0], box.middle[1], floorBelowM(plan, box)], normal: [0, 0, 1] },
    ...Object.fromEntries(structures.filter((s) => soundOutline(s.outline)).flatMap((s) => facesBeside(s, box))),
  };
}

/** Name of the stop below the load. */
export const FLOOR = "floor";
/** Which structure a stop is a face of; null: none, the floor. */
export const structureOfStop = (stop: string): string | null =>
  stop === FLOOR ? null : stop.slice("wall/".length, stop.lastIndexOf("/"));

/** Level of the highest surface that the load is above, m; of its own foot where it lies deeper. */
export function floorBelowM(plan: Situation["plan"], { middle: [x, y, z], half }: LoadBox): number {
  const foot = z - half[2];
  const tops = plan.scene.structures
    .filter((s) => insideOutline(s.outline, [x, y]) && s.topZM <= foot + SUNK_M)
    .map((s) => s.topZM);
  return Math.min(foot, Math.max(groundLevel(plan.scene, [x, y]), ...tops));
}

function facesBeside(structure: Structure, { middle, half }: LoadBox): [string, Stop][] {
  const { outline, baseZM, topZM, parapetHeightM } = structure;
  const [x, y, z] = middle;
  if (z - half[2] >= topZM + parapetHeightM || z + half[2] <= baseZM || pointInPolygon(outline, [x, y])) return [];
  return outline.flatMap(([ax, ay], i): [string, Stop][] => {
    const [bx, by] = outline[(i + 1) % outline.length] ?? [ax, ay];
    const length = Math.hypot(bx - ax, by - ay);
    if (!(length > 0)) return [];
    const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
    const along = (x - ax) * ux + (y - ay) * uy;
    if (along < 0 || along > length) return [];
    const side = Math.sign((x - ax) * uy - (y - ay) * ux);
    const [nx, ny] = [side * uy, -side * ux];
    const gap = (x - ax) * nx + (y - ay) * ny - Math.abs(nx) * half[0] - Math.abs(ny) * half[1];
    if (!(gap >= 0 && gap <= WALL_WITHIN_M) || !isOutward(structure, i, nx, ny)) return [];
    return [[`wall/${structure.id}/${i}`, { pointM: [ax, ay, z], normal: [nx, ny, 0] }]];
  });
}

/** Does this side of an outline's edge lie outside it? */
function isOutward({ outline }: Structure, edge: number, nx: number, ny: number): boolean {
  const [ax, ay] = outline[edge] ?? [0, 0];
  const [bx, by] = outline[(edge + 1) % outline.length] ?? [0, 0];
  const step = 1e-4;
  return !pointInPolygon(outline, [(ax + bx) / 2 + step * nx, (ay + by) / 2 + step * ny]);
}
