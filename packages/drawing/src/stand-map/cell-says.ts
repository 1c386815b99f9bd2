import {
  otherReasonAt,
  STAND_FIGURES,
  type StandBand,
  type StandFigure,
  type StandQuestion,
  standReasonAt,
  standStatusAt,
} from "@gantline/engine";
import { type UnitSystem, writeAmount, writeRatio } from "@gantline/plan";
import { otherSays, reasonSays } from "./reason-says.ts";
import { figureOf } from "./stand-cells.ts";

const RATING_LATER_SAYS =
  "Not yet told whether it fits: what the tip would bear is not looked at yet. Nothing else looked at speaks against it.";

/** What was found at the `entry`th place of a band: the best by each figure, or why not and by how much, and what else; in sentences. */
export function cellSays(question: StandQuestion, band: StandBand, entry: number, system: UnitSystem): string {
  const status = standStatusAt(band, entry);
  const reason = standReasonAt(question, band, entry);
  const why = reason === null ? "" : reasonSays(question, reason, system);
  if (status === "rejected") {
    const other = reason && otherReasonAt(question, band, entry);
    return `Does not fit. ${why}${other ? ` ${otherSays(question, reason, other, system)}` : ""}`;
  }
  if (question.ratingLater) return RATING_LATER_SAYS;
  const best = STAND_FIGURES.flatMap((figure) => {
    const value = figureOf({ question, band, entry }, figure);
    if (value === null) return [];
    const orMore = figure === "clearest" && value >= question.clearanceCountedM;
    return [figureSays(figure, value, system, orMore)];
  }).join(", ");
  const sentence = best === "" ? "" : ` ${best[0]?.toUpperCase()}${best.slice(1)}.`;
  if (status === "unknown") return `It cannot be told whether it fits. ${why}${sentence}`;
  const count = band.feasibleCount[entry] ?? 0;
  return `Vehicle and ladder fit, in ${count} of the poses tried.${sentence}`;
}

/** The best of a place by one figure: "steepest 71.2°". */
function figureSays(figure: StandFigure, value: number, system: UnitSystem, orMore: boolean): string {
  switch (figure) {
    case "steepest":
      return `steepest ${writeAmount({ value, quantity: "angle" }, system)}`;
    case "shortest":
      return `shortest ${writeAmount({ value, quantity: "length" }, system)}`;
    case "leastUsed":
      return `least used ${writeRatio(value)}`;
    case "clearest":
      return `most clearance ${writeAmount({ value, quantity: "length" }, system)}${orMore ? " or more" : ""} beyond what is asked`;
  }
}
