import { bodyCheck } from "./check-body.ts";
import { ladderCheck } from "./check-ladder.ts";
import { type CompiledQuestion, compileQuestion } from "./compile-question.ts";
import { clearFinding, emptyFinding, type Finding, UNTOLD } from "./finding.ts";
import { standReason } from "./stand-at.ts";
import type { StandFigure, StandStatus } from "./stand-band.ts";
import type { StandCandidate, StandQuestion } from "./stand-question.ts";
import { STAND_CHECKS, type StandReason } from "./stand-reason.ts";

/** What one candidate comes to. */
export interface StandAssessment {
  readonly status: StandStatus;
  /** What it misses most, relative to the limit, or what cannot be told; `null` if feasible. */
  readonly reason: StandReason | null;
  /** How far from passing, relative to the limit; 0 if not rejected. */
  readonly miss: number;
  /** As in `StandFigure`; `null` where rejected or not to be told. */
  readonly figures: Readonly<Record<StandFigure, number | null>>;
}

/** How does one candidate stand, by the same checks as the search? The point may hang anywhere, also off the target. */
export function assessStand(question: StandQuestion, candidate: StandCandidate): StandAssessment {
  const assess = assessorOf(question);
  const { miss, open, figures, finding } = assess(candidate);
  const rejected = miss > 0;
  const told = (x: number): number | null => (x === UNTOLD ? null : x);
  const check = STAND_CHECKS[rejected ? finding.check : finding.open];
  return {
    status: rejected ? "rejected" : open ? "unknown" : "feasible",
    miss,
    reason:
      check === undefined || check === "none"
        ? null
        : standReason(question, {
            check,
            value: rejected ? finding.value : told(finding.openValue),
            limit:
              rejected && check !== "nothingHolds" ? finding.limit : told(rejected ? finding.limit : finding.openLimit),
            thing: rejected ? finding.thing : finding.openThing,
            rejected,
          }),
    figures,
  };
}

const known = new WeakMap<StandQuestion, (candidate: StandCandidate) => BareAssessment>();

/** The assessor of a question, kept by the question's identity: what is asked never changes in place. */
function assessorOf(question: StandQuestion): (candidate: StandCandidate) => BareAssessment {
  const kept = known.get(question);
  if (kept) return kept;
  const assess = standAssessor(compileQuestion(question));
  known.set(question, assess);
  return assess;
}

/** What an assessor tells, in the terms of the search; `finding` is the same object each time. */
interface BareAssessment {
  readonly miss: number;
  readonly open: boolean;
  readonly finding: Finding;
  readonly figures: StandAssessment["figures"];
}

const NO_FIGURES: StandAssessment["figures"] = { steepest: null, shortest: null, leastUsed: null, clearest: null };

/** A function that assesses candidates of one question, one after the other. */
function standAssessor(compiled: CompiledQuestion): (candidate: StandCandidate) => BareAssessment {
  const { target } = compiled.question;
  const clearanceKnown =
    compiled.unknownWire < 0 && (compiled.question.ladderClearanceM !== null || compiled.obstacles.count === 0);
  const body = bodyCheck(compiled);
  const ladder = ladderCheck(compiled);
  const finding = emptyFinding();
  const height = new Float64Array(1);

  return ({ turntable, headingRad, point }) => {
    const bare = (figures: StandAssessment["figures"]): BareAssessment => ({
      miss: finding.miss,
      open: finding.open !== 0,
      finding,
      figures,
    });
    const [x, y] = turntable;
    clearFinding(finding);
    if (!body.at(x, y, finding)) return bare(NO_FIGURES);
    body.facing(headingRad, Math.sin(headingRad), Math.cos(headingRad), finding);
    const off = Math.hypot(point[0] - target.xM, point[1] - target.yM);
    ladder.at(x, y, body.groundZM, Math.max(off, target.toleranceM), point[2], point[2]);
    height[0] = point[2];
    if (!ladder.toward(point[0], point[1], height, finding)) return bare(NO_FIGURES);
    ladder.pose(0, finding);
    if (finding.miss > 0) return bare(NO_FIGURES);
    const used = ladder.used(0);
    return bare({
      steepest: ladder.family.elevationRad[0] as number,
      shortest: ladder.family.lengthM[0] as number,
      leastUsed: used < 0 ? null : used,
      clearest: clearanceKnown ? ladder.spare(0, -1) : null,
    });
  };
}
