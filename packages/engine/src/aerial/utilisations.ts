import { add, norm, type SiteVector, ZERO } from "../base/vector.ts";
import { type BeamLoad, beamLoadAt, beamSection, ratedBeamLoad } from "./beam-curves.ts";
import type { AerialDevice, RiggingPoint } from "./device.ts";
import type { PosedAerial } from "./pose-aerial.ts";
import type { TipRatingAnswer } from "./rated-tip-load.ts";

/** One demand beside its limit. Whether it is too much is judged elsewhere. */
export interface Utilisation {
  readonly demand: number;
  /** `null`: the table gives nothing to compare with. */
  readonly limit: number | null;
  /** demand / limit; `null` when there is no limit, or when the limit is zero (then any demand is beyond it). */
  readonly ratio: number | null;
  readonly unit: "N" | "N·m";
  /** Along the beam from the pivot, m, where the worst stands; `null` where it has no place. */
  readonly stationM: number | null;
  /** What was compared, or why nothing could be. */
  readonly reason: string;
}

export interface Utilisations {
  readonly resultant: Utilisation;
  readonly bending: Utilisation;
  readonly compression: Utilisation;
}

export interface RiggingForce {
  readonly point: RiggingPoint;
  /** On the ladder, site frame, N. */
  readonly forceN: SiteVector;
}

/**
 * Bending is judged where the rated moment is at least this share of the rated moment at the pivot. Further out the
 * rated moment fades to nothing at the tip, which is no statement about strength there; the rigging point's own rating
 * and the resultant judge that end. For a straight ladder this leaves out the outermost tenth. (A planning convention, no source.)
 */
export const BENDING_JUDGED_SHARE = 0.1;

/** Below this share of the rated load (or of rated load × length) the table says nothing about compression (or bending). */
const SAYS_NOTHING = 0.01;

/**
 * How much of what the maker's table allows does the rigging use: as a resultant, in bending, in compression?
 *
 * Three separate answers, on purpose never folded into one. With returning ropes along a steep ladder the resultant is
 * near twice the rope tension and the compression with it, while the bending is only what hangs there, W cos φ.
 * - resultant: size of the sum of all rigging-point forces against the rated tip load;
 * - bending: |moment in the vertical plane| against the rated moment at the same station, the worst along the beam
 *   (up to `BENDING_JUDGED_SHARE`); both are straight lines between loads, so the worst is found exactly;
 * - compression: the largest compression along the beam against the rated load's own, R sin φ. Where that is less than
 *   1 % of R the table says nothing about compression and the limit is unknown.
 * The ladder's own weight is in none of them: the table is net of it. Sideways load and torsion are judged apart.
 */
export function utilisations(
  device: AerialDevice,
  posed: PosedAerial,
  forces: readonly RiggingForce[],
  rating: Pick<TipRatingAnswer, "ratedTipLoadN" | "reason">,
): Utilisations {
  const loads = forces.map(({ point, forceN }) => beamLoadAt(posed, point, forceN));
  const rated = rating.ratedTipLoadN;
  const ratedLoad = rated === null ? null : ratedBeamLoad(device, posed, rated);
  return {
    resultant: resultantUse(forces, rated, rating.reason),
    bending: bendingUse(posed.lengthM, loads, ratedLoad, rated, rating.reason),
    compression: compressionUse(loads, posed.elevationRad, rated, rating.reason),
  };
}

function resultantUse(forces: readonly RiggingForce[], rated: number | null, reason: string): Utilisation {
  const demand = norm(forces.reduce((sum, f) => add(sum, f.forceN), ZERO));
  return compare(
    demand,
    rated,
    "N",
    null,
    rated === null ? reason : "Sum of all forces on the ladder against the rated tip load.",
  );
}

function compressionUse(
  loads: readonly BeamLoad[],
  elevationRad: number,
  rated: number | null,
  reason: string,
): Utilisation {
  const worst = [0, ...loads.map((l) => l.stationM)]
    .map((s) => beamSection(loads, s))
    .reduce((a, b) => (b.compressionN > a.compressionN ? b : a));
  const demand = Math.max(0, worst.compressionN);
  const limit = rated === null ? null : rated * Math.sin(elevationRad);
  if (rated === null || limit === null) return compare(demand, null, "N", worst.stationM, reason);
  if (rated > 0 && limit < SAYS_NOTHING * rated) {
    return compare(
      demand,
      null,
      "N",
      worst.stationM,
      "So near level the rated load puts no compression into the ladder: the table says nothing.",
    );
  }
  return compare(demand, limit, "N", worst.stationM, "Largest compression against the rated load's own, R sin φ.");
}

function bendingUse(
  lengthM: number,
  loads: readonly BeamLoad[],
  ratedLoad: BeamLoad | null,
  rated: number | null,
  reason: string,
): Utilisation {
  const moment = (s: number, side: "inboard" | "outboard"): number => Math.abs(beamSection(loads, s, side).momentNm);
  const judged = ratedLoad === null ? null : judgedLengthM(lengthM, ratedLoad);
  const end = judged ?? lengthM;
  const places = [0, ...loads.map((l) => l.stationM).filter((s) => s > 0 && s < end), end].flatMap((stationM) => [
    { stationM, demand: moment(stationM, "inboard") },
    // Just outboard of the end is not judged.
    { stationM, demand: stationM < end ? moment(stationM, "outboard") : 0 },
  ]);
  const largest = places.reduce((a, b) => (b.demand > a.demand ? b : a));

  if (ratedLoad === null || rated === null) return compare(largest.demand, null, "N·m", largest.stationM, reason);
  if (rated === 0) return compare(largest.demand, 0, "N·m", largest.stationM, "The rated tip load is zero.");
  const ratedAt = (s: number): number => beamSection([ratedLoad], s).momentNm;
  if (judged === null || ratedAt(0) < SAYS_NOTHING * rated * lengthM) {
    return compare(
      largest.demand,
      null,
      "N·m",
      largest.stationM,
      "So near plumb the rated load hardly bends the ladder: the table says nothing.",
    );
  }
  const worst = places
    .map((p) => ({ ...p, limit: ratedAt(p.stationM) }))
    .reduce((a, b) => (b.demand / b.limit > a.demand / a.limit ? b : a));
  return compare(
    worst.demand,
    worst.limit,
    "N·m",
    worst.stationM,
    "Worst moment along the ladder against the rated moment at the same station.",
  );
}

/** How far out the rated moment keeps at least its share of the moment at the pivot, m; `null` if it bends nothing down. */
function judgedLengthM(lengthM: number, ratedLoad: BeamLoad): number | null {
  const root = beamSection([ratedLoad], 0).momentNm;
  const tip = beamSection([ratedLoad], lengthM).momentNm;
  if (!(root > 0)) return null;
  if (tip >= BENDING_JUDGED_SHARE * root) return lengthM;
  return (lengthM * (root - BENDING_JUDGED_SHARE * root)) / (root - tip);
}

function compare(
  demand: number,
  limit: number | null,
  unit: Utilisation["unit"],
  stationM: number | null,
  reason: string,
): Utilisation {
  return { demand, limit, ratio: limit !== null && limit > 0 ? demand / limit : null, unit, stationM, reason };
}
