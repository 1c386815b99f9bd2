import { clearances } from "./clearances.ts";
import { componentStrength } from "./component-strength.ts";
import { elevation } from "./elevation.ts";
import { exampleData } from "./example-data.ts";
import { ground } from "./ground.ts";
import { groundSlope } from "./ground-slope.ts";
import { holding } from "./holding.ts";
import { jackPressure } from "./jack-pressure.ts";
import { jacks } from "./jacks.ts";
import { lockOut } from "./lock-out.ts";
import { madeFast } from "./made-fast.ts";
import { missingData } from "./missing-data.ts";
import { needsRopeWeight } from "./needs-rope-weight.ts";
import { needsWind } from "./needs-wind.ts";
import { nonStructuralPoint } from "./non-structural-point.ts";
import { offPlane } from "./off-plane.ts";
import { pairedPoints } from "./paired-points.ts";
import { parking } from "./parking.ts";
import { persons } from "./persons.ts";
import { powerLines } from "./power-lines.ts";
import { powerLinesLookedFor } from "./power-lines-looked-for.ts";
import { reach } from "./reach.ts";
import { riggingPointRating } from "./rigging-point-rating.ts";
import { ropeLength } from "./rope-length.ts";
import type { Rule } from "./rule.ts";
import { sharing } from "./sharing.ts";
import { slingAngle } from "./sling-angle.ts";
import { stability } from "./stability.ts";
import { taglineHands } from "./tagline-hands.ts";
import { taglineStanding } from "./tagline-standing.ts";
import { tether } from "./tether.ts";
import { tipHeight } from "./tip-height.ts";
import { tipRating } from "./tip-rating.ts";
import { tipping } from "./tipping.ts";
import { twist } from "./twist.ts";
import { unsolvedRopes } from "./unsolved-ropes.ts";
import { wind } from "./wind.ts";

/** Rules that look only at how the vehicle stands and what is rigged: the same wherever the load is. */
export const STANDING_RULES: readonly Rule[] = [
  nonStructuralPoint,
  slingAngle,
  reach,
  elevation,
  wind,
  persons,
  taglineStanding,
  jacks,
  parking,
  groundSlope,
  lockOut,
  powerLinesLookedFor,
  exampleData,
];

/** A rule that rests on forces: on the push of the wind and the weight of rope. */
const needsForces = (rule: Rule): Rule => needsRopeWeight(needsWind(rule));

/** Rules that look at forces, lengths and distances with the load where it is. */
export const MOVING_RULES: readonly Rule[] = [
  needsWind(holding),
  needsForces(tipRating),
  needsForces(riggingPointRating),
  needsForces(offPlane),
  needsForces(twist),
  needsForces(tipping),
  needsForces(stability),
  needsForces(jackPressure),
  needsForces(componentStrength),
  tipHeight,
  needsWind(clearances),
  needsWind(ground),
  needsWind(powerLines),
  unsolvedRopes,
  sharing,
  needsForces(pairedPoints),
  needsForces(taglineHands),
  needsForces(madeFast),
  needsForces(tether),
  ropeLength,
  missingData,
];
