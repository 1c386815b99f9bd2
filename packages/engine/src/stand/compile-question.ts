import Flatbush from "flatbush";
import { groundZAt, slopesUnderVehicle } from "../scene/ground-plane.ts";
import { type FlatOutlines, flatOutlines } from "./flat-outlines.ts";
import { type RatingSteps, ratingSteps } from "./rating-steps.ts";
import { type StandGrid, standGrid } from "./stand-grid.ts";
import type { StandArea, StandObstacle, StandQuestion, StandWire } from "./stand-question.ts";
import { evenHeadings, type TipPlaces, tipHeights, tipPlaces } from "./stand-steps.ts";
import { type DemandTable, demandTable } from "./tip-demand-at.ts";

/** A question laid out for a search: flat numbers, and the things by the boxes round them. */
export interface CompiledQuestion {
  readonly question: StandQuestion;
  readonly grid: StandGrid;
  readonly parking: FlatOutlines;
  readonly keepOuts: Things;
  readonly bodyObstacles: Things;
  readonly obstacles: Things;
  readonly wires: WirePieces;
  readonly rating: RatingSteps;
  /** `null`: not known. */
  readonly demand: DemandTable | null;
  readonly headings: { readonly sin: Float64Array; readonly cos: Float64Array; readonly rad: Float64Array };
  /** From the target's middle, m; turned toward each turntable place. */
  readonly tips: TipPlaces;
  /** Highest first, m. */
  readonly heights: Float64Array;
  /** Jacks' feet in the vehicle frame, m: middle, and half the side of the pad, 0 where it is not known or not asked for. */
  readonly feet: { readonly forward: Float64Array; readonly right: Float64Array; readonly half: Float64Array };
  /** The size of a pad that is asked for is not known. */
  readonly unknownPad: boolean;
  /** Farthest any part of vehicle or jacks lies from the turntable, m. */
  readonly bodyReachM: number;
  /** Greatest distance asked of any wire, m; 0 without wires. */
  readonly wireReachM: number;
  /** The first wire whose distance is not known, wherever it hangs; −1 for none. */
  readonly unknownWire: number;
}

/** Outlines with heights, found by place. */
export interface Things {
  readonly count: number;
  readonly outlines: FlatOutlines;
  readonly bottomZ: Float64Array;
  readonly topZ: Float64Array;
  /** Circle round each: middle and radius, m. */
  readonly midX: Float64Array;
  readonly midY: Float64Array;
  readonly radius: Float64Array;
  /** `null` for none. */
  readonly index: Flatbush | null;
}

/** The straight parts of all wires, found by place. */
export interface WirePieces {
  readonly count: number;
  /** Both ends of piece i at 2i and 2i + 1. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** Index of the wire in the question. */
  readonly wire: Int32Array;
  /** m; `UNTOLD` where not known. */
  readonly requiredM: Float64Array;
  readonly index: Flatbush | null;
}

/** Lays out a question; throws a `RangeError` for an outline of fewer than three points or a wire of fewer than two. */
export function compileQuestion(question: StandQuestion): CompiledQuestion {
  const { device, steps, jackReach, jackPadSideM = {}, tipDemand, target } = question;
  const { frontM, rearM, leftM, rightM } = device.outline;
  const forward = Float64Array.from(device.jacks, (j) => j.forwardM);
  const right = Float64Array.from(device.jacks, (j) => j.rightM * (jackReach[j.id] ?? 1));
  const half = Float64Array.from(device.jacks, (j) => (jackPadSideM[j.id] ?? 0) / 2);
  const rad = evenHeadings(steps.headings);
  const corner = Math.hypot(Math.max(frontM, rearM), Math.max(leftM, rightM));
  return {
    question,
    grid: standGrid(question),
    parking: flatOutlines(question.parking.map((p) => p.outline)),
    keepOuts: things(question.keepOuts, []),
    bodyObstacles: things(question.bodyObstacles, question.bodyObstacles),
    obstacles: things(question.obstacles, question.obstacles),
    wires: wirePieces(question.wires),
    rating: ratingSteps(device.tipRating),
    demand: tipDemand && demandTable(tipDemand),
    headings: { rad, sin: rad.map(Math.sin), cos: rad.map(Math.cos) },
    tips: tipPlaces(steps.tipPlaces, target.toleranceM),
    heights: tipHeights(steps.tipHeights, target),
    feet: { forward, right, half },
    unknownPad: device.jacks.some((j) => jackPadSideM[j.id] === null),
    bodyReachM: forward.reduce(
      (most, f, i) =>
        Math.max(
          most,
          Math.hypot(Math.abs(f) + (half[i] as number), Math.abs(right[i] as number) + (half[i] as number)),
        ),
      corner,
    ),
    wireReachM: question.wires.reduce((most, w) => Math.max(most, w.requiredM ?? 0), 0),
    unknownWire: question.wires.findIndex((w) => w.requiredM === null),
  };
}

/** Ground level at a place on one of the parking grounds, m. */
export function groundOf({ question }: CompiledQuestion, parking: number, x: number, y: number): number {
  const on = question.parking[parking];
  return on ? groundZAt(on.plane, x, y) : 0;
}

/** Slopes along and across a vehicle on one of the parking grounds, rad ≥ 0. */
export function slopesOf({ question }: CompiledQuestion, parking: number, headingRad: number): [number, number] {
  const on = question.parking[parking];
  if (!on) return [0, 0];
  const { alongRad, acrossRad } = slopesUnderVehicle(on.plane, headingRad);
  return [Math.abs(alongRad), Math.abs(acrossRad)];
}

function things(areas: readonly StandArea[], standing: readonly StandObstacle[]): Things {
  const outlines = flatOutlines(areas.map((a) => a.outline));
  const count = areas.length;
  const index = count > 0 ? new Flatbush(count) : null;
  const midX = new Float64Array(count);
  const midY = new Float64Array(count);
  const radius = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const xs = outlines.x.subarray(outlines.start[i], outlines.start[i + 1]);
    const ys = outlines.y.subarray(outlines.start[i], outlines.start[i + 1]);
    const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    index?.add(west, south, east, north);
    midX[i] = (west + east) / 2;
    midY[i] = (south + north) / 2;
    radius[i] = xs.reduce((r, x, k) => Math.max(r, Math.hypot(x - midX[i]!, ys[k]! - midY[i]!)), 0);
  }
  index?.finish();
  return {
    count,
    outlines,
    bottomZ: Float64Array.from(standing, (s) => Math.min(s.bottomZM, s.topZM)),
    topZ: Float64Array.from(standing, (s) => Math.max(s.bottomZM, s.topZM)),
    midX,
    midY,
    radius,
    index,
  };
}

function wirePieces(wires: readonly StandWire[]): WirePieces {
  if (wires.some((w) => w.points.length < 2)) throw new RangeError("A wire needs two points or more.");
  const pieces = wires.flatMap((w, wire) =>
    w.points.slice(1).map((to, i) => ({ wire, from: w.points[i]!, to, requiredM: w.requiredM ?? -1 })),
  );
  const ends = pieces.flatMap((p) => [p.from, p.to]);
  const index = pieces.length > 0 ? new Flatbush(pieces.length) : null;
  for (const { from, to } of pieces) {
    index?.add(Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.max(from[0], to[0]), Math.max(from[1], to[1]));
  }
  index?.finish();
  return {
    count: pieces.length,
    x: Float64Array.from(ends, (p) => p[0]),
    y: Float64Array.from(ends, (p) => p[1]),
    z: Float64Array.from(ends, (p) => p[2]),
    wire: Int32Array.from(pieces, (p) => p.wire),
    requiredM: Float64Array.from(pieces, (p) => p.requiredM),
    index,
  };
}
