import { assessStand, type StandCandidate, type StandQuestion } from "@gantline/engine";
import type { ParkArea } from "./stand-types.ts";

/** Side of the squares that are looked at, m. */
const SQUARE_M = 0.05;

/**
 * Where may the turntable's middle come to stand, the heading kept and the ladder posed anew over the same place?
 *
 * Squares of 5 cm within `mostM`, held to the search's exact checks at all four corners and the middle, that join up with the
 * stand itself: none of the places looked at within the area fails. What is not known counts as failing.
 *
 * @param isWithin tells of a place, from the stand, what these checks do not
 */
export function parkArea(
  question: StandQuestion,
  stand: StandCandidate,
  mostM: number,
  isWithin: (eastM: number, northM: number) => boolean = () => true,
): ParkArea {
  const [x, y] = stand.turntable;
  const known = new Map<string, boolean>();
  const holds = (i: number, j: number): boolean => {
    const key = `${i},${j}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const turntable = [x + i * SQUARE_M, y + j * SQUARE_M] as const;
    const found =
      isWithin(i * SQUARE_M, j * SQUARE_M) && assessStand(question, { ...stand, turntable }).status === "feasible";
    known.set(key, found);
    return found;
  };
  const holdsAll = (i: number, j: number): boolean =>
    holds(i, j) && holds(i + 1, j) && holds(i, j + 1) && holds(i + 1, j + 1) && holds(i + 0.5, j + 0.5);
  const nearestM = (i: number, j: number): number => SQUARE_M * Math.hypot(inward(i), inward(j));
  const farthestM = (i: number, j: number): number => SQUARE_M * Math.hypot(outward(i), outward(j));

  const squares = new Map<string, readonly [number, number]>();
  let freeM = mostM;
  const open: [number, number][] = [
    [0, 0],
    [-1, 0],
    [0, -1],
    [-1, -1],
  ];
  const seen = new Set(open.map(String));
  for (let next = open.pop(); next; next = open.pop()) {
    const [i, j] = next;
    if (nearestM(i, j) >= mostM) continue;
    if (!holdsAll(i, j)) {
      freeM = Math.min(freeM, nearestM(i, j));
      continue;
    }
    if (farthestM(i, j) <= mostM + 1e-9) squares.set(`${i},${j}`, next);
    for (const beside of [
      [i + 1, j],
      [i - 1, j],
      [i, j + 1],
      [i, j - 1],
    ] as [number, number][]) {
      if (seen.has(String(beside))) continue;
      seen.add(String(beside));
      open.push(beside);
    }
  }
  return { squareM: SQUARE_M, freeM, strips: stripsOf([...squares.values()]) };
}

/** Sides of a square nearer to and farther from the middle, in squares. */
const inward = (i: number): number => (i >= 0 ? i : -i - 1);
const outward = (i: number): number => inward(i) + 1;

/** Squares side by side, joined from west to east. */
function stripsOf(squares: readonly (readonly [number, number])[]): ParkArea["strips"] {
  const sorted = [...squares].sort((a, b) => a[1] - b[1] || a[0] - b[0]);
  const strips: { westM: number; eastM: number; southM: number; northM: number; to: readonly [number, number] }[] = [];
  for (const square of sorted) {
    const [i, j] = square;
    const last = strips.at(-1);
    if (last && last.to[1] === j && last.to[0] === i - 1) {
      last.eastM = (i + 1) * SQUARE_M;
      last.to = square;
    } else
      strips.push({
        westM: i * SQUARE_M,
        eastM: (i + 1) * SQUARE_M,
        southM: j * SQUARE_M,
        northM: (j + 1) * SQUARE_M,
        to: square,
      });
  }
  return strips.map(({ to: _, ...strip }) => strip);
}
