import { bodyCheck } from "./check-body.ts";
import { ladderCheck } from "./check-ladder.ts";
import { compileQuestion } from "./compile-question.ts";
import { clearFinding, codeOf, copyFinding, emptyFinding, type Finding, UNTOLD } from "./finding.ts";
import { isOfLadder, reasonOfStand, standStatusAt } from "./stand-at.ts";
import type { StandBand } from "./stand-band.ts";
import { cellMiddle } from "./stand-grid.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";
import { STAND_CHECKS, type StandReason } from "./stand-reason.ts";
import { turnTipPlaces } from "./stand-steps.ts";

/**
 * What else keeps the `i`th cell of a band from being feasible, besides what `standReasonAt` tells? `null`: nothing, or the
 * cell is not rejected, or lies on no parking ground.
 *
 * Where vehicle and ladder both fail, however the vehicle faces and the ladder is posed, the nearest of the other one.
 * Else what the heading, or pose, comes to that is nearest to passing of those that another check or thing keeps from it.
 * Of the steps of the question alone, not of the heights between. Looks at all of them: for places that are asked about.
 */
export function otherReasonAt(question: StandQuestion, band: StandBand, i: number): StandReason | null {
  const first = { check: band.check[i] as number, thing: band.thing[i] as number };
  const check = STAND_CHECKS[first.check];
  if (standStatusAt(band, i) !== "rejected" || !check || check === "none" || check === "offParking") return null;
  const cell = band.cells[i] as number;
  const { bodies, poses } = everyFinding(question, cell);
  const [own, others] = isOfLadder(check) ? [poses, bodies] : [bodies, poses];
  const besides = others.some(({ finding }) => finding.miss === 0) ? null : nearestOf(others);
  const other =
    besides ?? nearestOf(own.filter(({ finding }) => finding.check !== first.check || finding.thing !== first.thing));
  if (other === null) return null;
  const { limit } = other.finding;
  const isUntold = other.finding.check === NOTHING_HOLDS && limit === UNTOLD;
  return reasonOfStand(question, { ...other.finding, limit: isUntold ? null : limit }, other.stand);
}

const NOTHING_HOLDS = codeOf("nothingHolds");

interface Judged {
  readonly finding: Finding;
  readonly stand: StandCandidate;
}

const nearestOf = (judged: readonly Judged[]): Judged | null =>
  judged.reduce<Judged | null>(
    (so, one) => (one.finding.miss > 0 && (so === null || one.finding.miss < so.finding.miss) ? one : so),
    null,
  );

const known = new WeakMap<StandQuestion, (cell: number) => { bodies: readonly Judged[]; poses: readonly Judged[] }>();

/** What every heading and every pose comes to; what is laid out for a question is kept with it. */
function everyFinding(question: StandQuestion, cell: number) {
  const judge = known.get(question) ?? judgeOf(question);
  known.set(question, judge);
  return judge(cell);
}

function judgeOf(question: StandQuestion) {
  const compiled = compileQuestion(question);
  const { grid, headings, tips, heights } = compiled;
  const { xM, yM, toleranceM, minZM, maxZM } = question.target;
  const body = bodyCheck(compiled);
  const ladder = ladderCheck(compiled);
  return (cell: number) => {
    const turntable = cellMiddle(grid, cell);
    const [x, y] = turntable;
    const scratch = emptyFinding();
    const bodies: Judged[] = [];
    const poses: Judged[] = [];
    if (!body.at(x, y, scratch)) return { bodies, poses };
    const note = (list: Judged[], stand: Pick<StandCandidate, "headingRad" | "point">) => {
      const finding = emptyFinding();
      copyFinding(finding, scratch);
      list.push({ finding, stand: { turntable, ...stand } });
    };
    for (const [h, headingRad] of headings.rad.entries()) {
      clearFinding(scratch);
      body.facing(headingRad, headings.sin[h] as number, headings.cos[h] as number, scratch);
      note(bodies, { headingRad, point: [xM, yM, maxZM] });
    }
    ladder.at(x, y, body.groundZM, toleranceM, minZM, maxZM);
    turnTipPlaces(tips, toleranceM, x - xM, y - yM);
    for (const t of tips.x.keys()) {
      const [pointX, pointY] = [xM + (tips.x[t] as number), yM + (tips.y[t] as number)];
      clearFinding(scratch);
      const isAimed = ladder.toward(pointX, pointY, heights, scratch);
      for (const [z, heightM] of heights.entries()) {
        if (isAimed) {
          clearFinding(scratch);
          ladder.pose(z, scratch);
        }
        note(poses, { headingRad: 0, point: [pointX, pointY, heightM] });
      }
    }
    return { bodies, poses };
  };
}
