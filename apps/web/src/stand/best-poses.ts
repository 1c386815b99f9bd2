import type { StandFound } from "@gantline/drawing";
import {
  type AerialPlace,
  type AerialPose,
  poseOfStand,
  STAND_FIGURES,
  type StandFigure,
  standAt,
} from "@gantline/engine";

const WORDS: Readonly<Record<StandFigure, string>> = {
  steepest: "Steepest",
  shortest: "shortest",
  leastUsed: "least used",
  clearest: "most clearance",
};

export interface BestPose {
  /** "Steepest, least used". */
  readonly word: string;
  readonly place: AerialPlace;
  readonly pose: AerialPose;
}

/** The best poses of a place, each once, with the figures it is best by. */
export function bestPoses({ question, band, entry }: StandFound): readonly BestPose[] {
  const byCandidate = new Map<number, StandFigure[]>();
  for (const figure of STAND_FIGURES) {
    const candidate = band.best[figure].candidate[entry] ?? -1;
    if (candidate >= 0) byCandidate.set(candidate, [...(byCandidate.get(candidate) ?? []), figure]);
  }
  return [...byCandidate].flatMap(([candidate, figures]): BestPose[] => {
    const stand = standAt(question, band.cells[entry] ?? 0, candidate);
    const posed = stand && poseOfStand(question, stand);
    const word = figures.map((figure) => WORDS[figure]).join(", ");
    return posed ? [{ word: `${word[0]?.toUpperCase()}${word.slice(1)}`, ...posed }] : [];
  });
}
