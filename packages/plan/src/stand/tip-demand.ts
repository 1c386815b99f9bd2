import {
  type AerialPlace,
  type HungFrom,
  poseAerial,
  type SiteVector,
  type TipDemand,
  type Utilisations,
  wrapBearing,
} from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import { momentPlan, stageWay, wayLengthM } from "../evolve/moment-plan.ts";
import { feelAerial } from "../feel-aerial.ts";
import { sumLoad } from "../rig/sum-load.ts";
import type { Plan } from "../schema/plan.ts";
import { solveRig } from "../solve-rig.ts";

/** Elevations at which the rig is solved; between them the demand is taken as straight: within 0.2 % of what it is. */
const ELEVATIONS = 8;
/** Flatter than this the demand is that of this, rad: a point above the pivot is then out of any ladder's reach. */
const FLATTEST_RAD = (10 * Math.PI) / 180;
/** A rated load to measure against, N: use of a rating is proportional to it. */
const MEASURE_N = 1000;

/**
 * How great a rated tip load does this rig ask for, by elevation?
 *
 * The plan's own rig, solved: for each elevation the vehicle is set back so that the ladder, at that elevation, brings the
 * rigging points to `point`; vehicle anchors go along. The answer is the worst over the stages with something aboard (start,
 * bends and end of each way) and over both travel cases, N. Where the policy lets bending and compression decide as well, it
 * is the rated load at which the worst of the three would be fully used. What the ladder is turned toward, and what it is
 * long, hardly matters to it: the bearing is the one given. A tip that is higher has more rope hanging from it, some newtons a
 * metre, so that places above `point` ask for up to 2 % more, and lower ones for less; sweeping a stand works it out. `null`: not known, for a mass, a rope's weight, a pull or an efficiency is missing, or
 * nothing could be solved.
 */
export function tipDemand(
  plan: Plan,
  hung: HungFrom,
  point: SiteVector,
  bearingRad: number,
): readonly TipDemand[] | null {
  const { device } = plan.aerial;
  const flattest = Math.max(FLATTEST_RAD, device.elevationMinRad);
  const steepest = Math.max(flattest, device.elevationMaxRad);
  const moments = loadedMoments(plan);
  const found: TipDemand[] = [];
  for (let i = 0; i < ELEVATIONS; i++) {
    const elevationRad = flattest + ((steepest - flattest) * i) / (ELEVATIONS - 1);
    const aerial = aerialBelow(plan, hung, point, bearingRad, elevationRad);
    if (aerial === null) continue;
    let worst: number | null = null;
    for (const moment of moments) {
      const demand = demandAt({ ...moment, aerial });
      if (demand === "unknown") return null;
      if (demand !== "unsolved") worst = Math.max(worst ?? 0, demand);
    }
    if (worst !== null) found.push({ elevationRad, demandN: worst });
  }
  return found.length > 0 ? found : null;
}

/** The plan at every start, bend and end of a way with something on the ropes; without stages its one position. */
function loadedMoments(plan: Plan): readonly Plan[] {
  const { stages } = plan.evolution;
  if (stages.length === 0) return [plan];
  const seen = new Set<string>();
  return stages.flatMap((stage, i) => {
    if (stage.aboard.length === 0 || stage.action === "moveLadder") return [];
    const way = stageWay(plan, i);
    const whole = wayLengthM(way);
    const places = way.map((_, k) => (whole > 0 ? wayLengthM(way.slice(0, k + 1)) / whole : 0));
    return places.flatMap((along) => {
      const moment = momentPlan(plan, { stage: i, along });
      const key = JSON.stringify(moment.rig);
      if (seen.has(key)) return [];
      seen.add(key);
      return [moment];
    });
  });
}

/** The device set back so that its ladder, at an elevation, brings what hangs to a place; `null` where no length does. */
function aerialBelow(
  { aerial }: Plan,
  hung: HungFrom,
  point: SiteVector,
  bearingRad: number,
  elevationRad: number,
): Plan["aerial"] | null {
  const { device, place, pose } = aerial;
  const onLadder = hung.on === "ladder";
  const [s, c] = [Math.sin(elevationRad), Math.cos(elevationRad)];
  const rise = point[2] - place.groundZM - device.pivotHeightM + hung.dropM * (onLadder ? c : 1);
  const along = rise / s;
  const lengthM = along + (onLadder ? hung.alongM : 0);
  if (!(along > 0) || !(lengthM > 0)) return null;
  const reach = along * c + (onLadder ? hung.dropM * s : hung.alongM) - device.pivotSetbackM;
  const [sinB, cosB] = [Math.sin(bearingRad), Math.cos(bearingRad)];
  const stands: AerialPlace = {
    turntableX: point[0] - reach * sinB - hung.lateralM * cosB,
    turntableY: point[1] - reach * cosB + hung.lateralM * sinB,
    groundZM: place.groundZM,
    headingRad: wrapBearing(place.headingRad + bearingRad - pose.bearingRad),
  };
  return { ...aerial, place: stands, pose: { bearingRad, elevationRad, lengthM } };
}

/** The demand of one position, N. */
function demandAt(plan: Plan): number | "unknown" | "unsolved" {
  const { device, place, pose } = plan.aerial;
  const straight = poseAerial(device, place, pose);
  const { posed, laid, outcome } = solveRig(plan, straight, sumLoad(plan));
  if (!outcome.ok) return outcome.code === "unknown" ? "unknown" : "unsolved";
  if (laid.mains.some((m) => m.efficiencies[0] === null) || laid.unweighed.length > 0) return "unknown";
  const stand = { geometry: { posed }, rating: { ratedTipLoadN: MEASURE_N, reason: "" }, ratedTipping: [] };
  const { motion } = plan.rig.load;
  const cases: readonly TravelCase[] = motion === "rest" ? ["raise", "lower"] : [motion];
  const counted = plan.policy.tipBasis === "all" ? ALL_USES : RESULTANT_ALONE;
  const ratios = cases.flatMap((travel) => {
    const { utilisations } = feelAerial(plan, stand, outcome.state, travel);
    return counted.map((kind) => utilisations[kind].ratio ?? 0);
  });
  return Math.max(...ratios) * MEASURE_N;
}

const RESULTANT_ALONE: readonly (keyof Utilisations)[] = ["resultant"];
const ALL_USES: readonly (keyof Utilisations)[] = ["resultant", "bending", "compression"];
