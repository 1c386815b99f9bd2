import { bearingOf, type Outline, type PlanPoint, site, tidyOutline } from "@gantline/engine";
import { groundLevel } from "../edit/surface-below.ts";
import { soundOutline } from "../place-geometry.ts";
import type { Plan } from "../schema/plan.ts";
import type { Structure } from "../schema/scene.ts";
import type { TapePoint } from "./stand-types.ts";

/** A wall whose foot is this near to the ground can be taped from, m. */
const FOOT_WITHIN_M = 0.5;
/** Two points nearer than this are one place, m. */
const SAME_PLACE_M = 0.05;

/**
 * Where can people tape from? The scene's datum, corners of what stands on the ground, and, where these are fewer than two,
 * corners of parking ground, which may be kerbs.
 */
export function tapePoints({ scene }: Plan): readonly TapePoint[] {
  const datum: TapePoint[] = scene.datum ? [{ id: "datum", name: scene.datum.name, at: scene.datum.position }] : [];
  const standing = scene.structures.filter((s) => soundOutline(s.outline) && meetsGround(scene, s));
  const found = apart([...datum, ...standing.flatMap(corners)]);
  if (found.length >= 2) return found;
  return apart([...found, ...scene.parking.filter((p) => soundOutline(p.outline)).flatMap(corners)]);
}

const meetsGround = (scene: Plan["scene"], { outline: [first], baseZM }: Structure): boolean =>
  first !== undefined && Math.abs(baseZM - groundLevel(scene, first)) <= FOOT_WITHIN_M;

/** The first of every place. */
function apart(points: readonly TapePoint[]): readonly TapePoint[] {
  const kept: TapePoint[] = [];
  for (const p of points)
    if (kept.every((k) => Math.hypot(k.at[0] - p.at[0], k.at[1] - p.at[1]) > SAME_PLACE_M)) kept.push(p);
  return kept;
}

/** Corners, told by where they lie from the middle; numbered where several lie the same way. */
function corners({
  id,
  name,
  outline,
}: {
  readonly id: string;
  readonly name: string;
  readonly outline: Outline;
}): TapePoint[] {
  const points = tidyOutline(outline);
  const middle = [0, 1].map((axis) => points.reduce((sum, p) => sum + (p[axis] ?? 0), 0) / points.length);
  const ways = points.map((p) => wayFrom([middle[0] ?? 0, middle[1] ?? 0], p));
  return points.map((at, i) => {
    const way = ways[i] ?? "";
    const alike = ways.filter((w) => w === way).length;
    const number = alike > 1 ? ` ${ways.slice(0, i + 1).filter((w) => w === way).length}` : "";
    return { id: `${id}/${i + 1}`, name: `${name}, ${way} corner${number}`, at };
  });
}

const WAYS = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"] as const;

function wayFrom(middle: PlanPoint, p: PlanPoint): string {
  const east = p[0] - middle[0];
  const north = p[1] - middle[1];
  // Corners of anything long lie near its ends, and yet are its four corners: both ways count unless one is as good as none.
  const slant = Math.min(Math.abs(east), Math.abs(north)) > 0.05 * Math.max(Math.abs(east), Math.abs(north));
  const bearing = slant ? bearingOf(site(Math.sign(east), Math.sign(north), 0)) : bearingOf(site(east, north, 0));
  return WAYS[Math.round(bearing / (Math.PI / 4)) % WAYS.length] ?? "north";
}
