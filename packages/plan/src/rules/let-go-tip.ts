import type { Check } from "../check.ts";
import type { LetGoCase, LetGoFigures } from "../let-go/let-go-plan-types.ts";
import type { Plan } from "../schema/plan.ts";
import { type PeakQuestion, peakCheck } from "./let-go-peak-check.ts";
import { decidesAtTip } from "./tip-rating.ts";

/**
 * Does the ladder get more than the maker's table allows when a line goes: as a resultant, in bending, in compression, sideways?
 *
 * As at rest: bending counts, compression where the plan says that all three decide, and the side load is held against the
 * maker's side rating. Where there is none, the angle out of the ladder's plane stands beside the policy's limit on it, which
 * is one on how ropes are led and not on a load that swings: it is shown and does not decide.
 */
export const tipChecks = (plan: Plan, one: LetGoCase, figures: LetGoFigures, gone: string): readonly Check[] =>
  [tipQuestion(plan, figures), ...beamQuestions(plan, figures), sideQuestion(plan, figures)].map((question) =>
    peakCheck(plan, one, gone, question),
  );

const tipQuestion = ({ aerial, policy }: Plan, { tipN, utilisations }: LetGoFigures): PeakQuestion => ({
  id: "tip",
  subject: "A line gone: peak at the tip",
  question: "Highest sum of the forces at the rigging points against the rated tip load",
  peak: tipN,
  strength: utilisations.resultant.limit,
  strengthMeaning: "rated tip load at this elevation and length",
  strengthSource: aerial.device.tipRating.source,
  divisor: policy.peakRatingFactor,
  field: "aerial.device.tipRating",
});

const BEAM = {
  bending: {
    subject: "A line gone: ladder in bending",
    question: "Worst moment along the ladder at the peak against the moment of the rated tip load there",
    quantity: "moment",
    meaning: "moment of the rated tip load at the same place",
  },
  compression: {
    subject: "A line gone: ladder in compression",
    question: "Highest compression at the peak against that of the rated tip load",
    quantity: "force",
    meaning: "compression of the rated tip load",
  },
} as const;

const beamQuestions = ({ aerial, policy }: Plan, { utilisations }: LetGoFigures): readonly PeakQuestion[] =>
  (["bending", "compression"] as const).map((kind) => {
    const { demand, limit, reason } = utilisations[kind];
    const { subject, question, quantity, meaning } = BEAM[kind];
    return {
      id: `tip/${kind}`,
      subject,
      question,
      peak: demand,
      quantity,
      strength: limit,
      strengthMeaning: meaning,
      strengthSource: aerial.device.tipRating.source,
      divisor: policy.peakRatingFactor,
      field: "aerial.device.tipRating",
      ifUnlimited: [reason],
      counts: decidesAtTip(kind, policy),
    };
  });

function sideQuestion({ aerial, policy }: Plan, { tipInBeam }: LetGoFigures): PeakQuestion {
  const { sideRatingN, sideRatingSource } = aerial.device;
  const base = {
    id: "side",
    subject: "A line gone: sideways pull on the tip",
    ifOver: ["Lead the ropes nearer the ladder's plane, or hold the load nearer to it."],
  };
  return sideRatingN === null
    ? {
        ...base,
        question: "Angle of the pull out of the ladder's vertical plane, at the peak",
        peak: Math.abs(tipInBeam.offPlaneRad),
        quantity: "angle",
        strength: policy.offPlaneMaxRad.value,
        strengthMeaning: "planning limit on the angle, for ropes as they are led",
        strengthSource: policy.offPlaneMaxRad.source,
        field: "policy.offPlaneMaxRad",
        counts: false,
      }
    : {
        ...base,
        question: "Side load against the maker's side rating",
        peak: Math.abs(tipInBeam.lateralN),
        strength: sideRatingN,
        strengthMeaning: "maker's side rating",
        strengthSource: sideRatingSource,
        divisor: policy.peakRatingFactor,
        field: "aerial.device.sideRatingN",
      };
}
