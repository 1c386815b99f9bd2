import { extentOf, type Outline, type PlanPoint, sideIsNear } from "./outline.ts";

/** One side of a piece of an outline: from where to where it runs, and a place close beside its middle. */
export interface CellSide {
  readonly from: PlanPoint;
  readonly to: PlanPoint;
  readonly beside: PlanPoint;
}

/** So near to a side lies the place beside it: what is narrower than this is not seen, m. */
export const BESIDE_M = 1e-4;

/** Below this sine two sides count as parallel. */
const PARALLEL = 1e-12;

type Side = readonly [PlanPoint, PlanPoint];

/**
 * Into which parts do outlines cut the inside of one of them, and what bounds each part?
 *
 * The sides are cut wherever two meet, and each piece is seen from both its sides: so every part of the plane wider than
 * `BESIDE_M` that touches `middle` has a place of it named, and all its corners are ends of pieces. Outlines may cross
 * themselves and each other. Sides that come nowhere near `middle` are left out.
 */
export function cellSides(middle: Outline, others: readonly Outline[]): readonly CellSide[] {
  const extent = extentOf(middle);
  const near = ([a, b]: Side): boolean => sideIsNear(a, b, extent);
  const sides = [...sidesOf(middle), ...others.flatMap((o) => sidesOf(o).filter(near))];
  return sides.flatMap((side) => seenFromBothSides(side, cutsOf(side, sides)));
}

const sidesOf = (outline: Outline): Side[] => outline.map((b, i) => [outline.at(i - 1) as PlanPoint, b]);

/** Where along a side (0 to 1) others meet it, in order, with both ends. */
function cutsOf([p, q]: Side, sides: readonly Side[]): readonly number[] {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const squared = dx * dx + dy * dy;
  if (squared === 0) return [];
  const cuts = [0, 1];
  const cut = (t: number): void => {
    if (t > 0 && t < 1) cuts.push(t);
  };
  for (const [r, s] of sides) {
    const ex = s[0] - r[0];
    const ey = s[1] - r[1];
    const wx = r[0] - p[0];
    const wy = r[1] - p[1];
    const sine = dx * ey - dy * ex;
    if (Math.abs(sine) > PARALLEL * Math.sqrt(squared * (ex * ex + ey * ey))) {
      const across = (wx * dy - wy * dx) / sine;
      if (across >= -PARALLEL && across <= 1 + PARALLEL) cut((wx * ey - wy * ex) / sine);
    } else {
      cut((wx * dx + wy * dy) / squared);
      cut(((s[0] - p[0]) * dx + (s[1] - p[1]) * dy) / squared);
    }
  }
  return cuts.sort((a, b) => a - b);
}

function seenFromBothSides([p, q]: Side, cuts: readonly number[]): CellSide[] {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const length = Math.hypot(dx, dy);
  const at = (t: number): PlanPoint => [p[0] + t * dx, p[1] + t * dy];
  const found: CellSide[] = [];
  for (let i = 1; i < cuts.length; i++) {
    const [a, b] = [cuts[i - 1] as number, cuts[i] as number];
    if ((b - a) * length < BESIDE_M) continue;
    const [x, y] = at((a + b) / 2);
    for (const off of [BESIDE_M, -BESIDE_M])
      found.push({ from: at(a), to: at(b), beside: [x - (off * dy) / length, y + (off * dx) / length] });
  }
  return found;
}
