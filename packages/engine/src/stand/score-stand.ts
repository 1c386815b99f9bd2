import { bodyCheck } from "./check-body.ts";
import { ladderCheck } from "./check-ladder.ts";
import type { CompiledQuestion } from "./compile-question.ts";
import { clearFinding, emptyFinding, MOST_MISS } from "./finding.ts";
import type { StandFigure } from "./stand-band.ts";
import type { StandCandidate } from "./stand-question.ts";

/** How good a candidate is by one figure. */
export interface Score {
  /** All misses added up; 0 where feasible. */
  readonly miss: number;
  /** The figure, turned so that more is better; 0 where it is missed. */
  readonly good: number;
}

/** What anything that can be told is better than; also told of what is only known to be no better than something else. */
export const WORST: Score = { miss: Number.MAX_VALUE, good: 0 };

const SAME_FIGURE = 1e-12;

export const better = (a: Score, b: Score): boolean =>
  a.miss < b.miss || (a.miss === b.miss && a.good > b.good + SAME_FIGURE);

/** Is less of a figure better? */
export const isLessBetter = (figure: StandFigure): boolean => figure === "shortest" || figure === "leastUsed";

/**
 * A function that scores candidates of one question, one after the other, by the checks of the search.
 *
 * One that is not better than `than` is judged only so far as to tell that, and is told as `WORST`. So is what cannot be told.
 */
export function standScorer(
  compiled: CompiledQuestion,
  figure: StandFigure,
): (candidate: StandCandidate, than?: Score) => Score {
  const { target, ladderClearanceM } = compiled.question;
  const clearanceKnown = compiled.unknownWire < 0 && (ladderClearanceM !== null || compiled.obstacles.count === 0);
  const body = bodyCheck(compiled);
  const ladder = ladderCheck(compiled, "pose");
  const finding = emptyFinding();
  const height = new Float64Array(1);

  /** The figure of the pose, as far as it can be told before anything is judged; `null` where it cannot. */
  function foretold(): number | null {
    if (figure === "steepest") return ladder.family.elevationRad[0] as number;
    return figure === "shortest" ? -(ladder.family.lengthM[0] as number) : null;
  }

  function figureFrom(least: number): number | null {
    if (figure === "clearest") return clearanceKnown ? ladder.spare(0, least) : null;
    const used = ladder.used(0);
    return figure === "leastUsed" ? (used < 0 ? null : -used) : foretold();
  }

  return ({ turntable: [x, y], headingRad, point }, than = WORST) => {
    clearFinding(finding);
    // Off all ground nothing else is looked at.
    if (!body.at(x, y, finding)) return { miss: MOST_MISS + finding.miss, good: 0 };
    const off = Math.hypot(point[0] - target.xM, point[1] - target.yM);
    ladder.at(x, y, body.groundZM, Math.max(off, target.toleranceM), point[2], point[2]);
    height[0] = point[2];
    const aimed = ladder.toward(point[0], point[1], height, finding);
    const ahead = aimed && than.miss === 0 ? foretold() : null;
    if (ahead !== null && ahead <= than.good + SAME_FIGURE) return WORST;
    const isWorse = (): boolean => finding.total > 0 && finding.total >= than.miss;
    if (isWorse()) return WORST;
    body.facing(headingRad, Math.sin(headingRad), Math.cos(headingRad), finding);
    if (isWorse()) return WORST;
    if (!aimed) return { miss: finding.total, good: 0 };
    finding.enough = Math.max(than.miss, Number.MIN_VALUE);
    ladder.pose(0, finding);
    if (isWorse()) return WORST;
    if (finding.miss > 0) return { miss: finding.total, good: 0 };
    const value = finding.open ? null : figureFrom(than.miss === 0 ? than.good : -1);
    return value === null ? WORST : { miss: 0, good: value };
  };
}
