import type { BeamVector, SiteVector } from "../base/vector.ts";
import type { AerialDevice, RiggingPoint } from "./device.ts";
import { type PosedAerial, toBeam } from "./pose-aerial.ts";
import { ratedLoadAheadM } from "./rated-load-ahead.ts";
import { riggingPointOffset } from "./rigging-point-at.ts";

/** A force on the beam: it enters the beam at `stationM` and acts at `offset` from that station. */
export interface BeamLoad {
  /** Along the beam from the pivot, m. */
  readonly stationM: number;
  /** From the station on the beam's centre line to where the force acts, m. */
  readonly offset: BeamVector;
  /** N. */
  readonly force: BeamVector;
}

/** What the beam carries across one station: the effect of all that is applied further out. */
export interface BeamSection {
  readonly stationM: number;
  /** Toward the pivot, N. */
  readonly compressionN: number;
  /** N; positive the way weight shears a level ladder, outboard part down. */
  readonly shearN: number;
  /** In the vertical plane, N·m; positive bends the tip down. */
  readonly momentNm: number;
  /** N; positive to the right looking out. */
  readonly lateralShearN: number;
  /** N·m; positive bends the tip to the right. */
  readonly lateralMomentNm: number;
  /** About the beam, N·m; positive turns it clockwise looking out from the pivot. */
  readonly torsionNm: number;
}

/** How does a force at a rigging point enter the beam? A platform's points act on the beam's tip, with their lever. */
export function beamLoadAt(posed: PosedAerial, point: RiggingPoint, forceN: SiteVector): BeamLoad {
  const fromTip = riggingPointOffset(posed.elevationRad, point);
  const along = point.on === "platform" ? 0 : fromTip.axial;
  const stationM = Math.min(Math.max(posed.lengthM + along, 0), posed.lengthM);
  const offset = { ...fromTip, axial: posed.lengthM + fromTip.axial - stationM };
  return { stationM, offset, force: toBeam(posed.axes, forceN) };
}

/** The rated vertical tip load as a load on the beam: at the tip, or where the maker puts it on a platform. */
export function ratedBeamLoad(device: AerialDevice, posed: PosedAerial, ratedTipLoadN: number): BeamLoad {
  const c = Math.cos(posed.elevationRad);
  const s = Math.sin(posed.elevationRad);
  const ahead = ratedLoadAheadM(device);
  return {
    stationM: posed.lengthM,
    offset: { axial: ahead * c, normal: -ahead * s, lateral: 0 },
    force: { axial: -ratedTipLoadN * s, normal: -ratedTipLoadN * c, lateral: 0 },
  };
}

/**
 * What does the beam carry across one station?
 *
 * Statics of the straight beam, first order, from the given loads alone: the ladder's own weight is left out, because
 * the maker's table is net of it. At a station where a load enters, `side` says whether it counts (`inboard`, the
 * default: just inside the load) or not (`outboard`).
 */
export function beamSection(
  loads: readonly BeamLoad[],
  stationM: number,
  side: "inboard" | "outboard" = "inboard",
): BeamSection {
  let axial = 0;
  let normal = 0;
  let lateral = 0;
  let vertical = 0;
  let sideways = 0;
  let torsion = 0;
  for (const { stationM: at, offset, force } of loads) {
    if (side === "inboard" ? at < stationM : at <= stationM) continue;
    const arm = at - stationM + offset.axial;
    axial += force.axial;
    normal += force.normal;
    lateral += force.lateral;
    vertical += arm * force.normal - offset.normal * force.axial;
    sideways += arm * force.lateral - offset.lateral * force.axial;
    torsion += offset.normal * force.lateral - offset.lateral * force.normal;
  }
  return {
    stationM,
    compressionN: minus(axial),
    shearN: minus(normal),
    momentNm: minus(vertical),
    lateralShearN: lateral,
    lateralMomentNm: sideways,
    torsionNm: torsion,
  };
}

/**
 * The same along the whole beam, from pivot (0) to tip: straight lines between the returned stations are exact.
 *
 * A station where a load enters is given twice, just inboard and just outboard of it; the tip only just inboard.
 * `extraM` adds stations of the caller's choice.
 */
export function beamCurves(
  lengthM: number,
  loads: readonly BeamLoad[],
  extraM: readonly number[] = [],
): readonly BeamSection[] {
  const inner = (s: number): boolean => s > 0 && s < lengthM;
  const jumps = new Set(loads.map((l) => l.stationM).filter(inner));
  const stations = [...new Set([0, ...jumps, ...extraM.filter(inner), lengthM])].sort((a, b) => a - b);
  return stations.flatMap((s) =>
    jumps.has(s) ? [beamSection(loads, s, "inboard"), beamSection(loads, s, "outboard")] : [beamSection(loads, s)],
  );
}

/** The same curves for the rated vertical tip load at this pose. */
export function ratedBeamCurves(
  device: AerialDevice,
  posed: PosedAerial,
  ratedTipLoadN: number,
  extraM: readonly number[] = [],
): readonly BeamSection[] {
  return beamCurves(posed.lengthM, [ratedBeamLoad(device, posed, ratedTipLoadN)], extraM);
}

const minus = (x: number): number => (x === 0 ? 0 : -x);
