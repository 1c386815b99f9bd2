import {
  add,
  beamCurves,
  beamLoadAt,
  beamSection,
  forceInBeamAxes,
  ratedBeamCurves,
  type SiteVector,
  tippingMoments,
  utilisations,
  ZERO,
} from "@gantline/engine";
import type { AerialForces, FeltForces, PointForce, TravelCase } from "./evaluation.ts";
import type { MainState, RigState } from "./rig/rig-state.ts";
import { sheavePull } from "./rig/sheave-pull.ts";
import type { Plan } from "./schema/plan.ts";
import type { Stand } from "./stand-aerial.ts";

/** Shares of the ladder's length at which the curves along it are given besides where they break. */
const STATIONS: readonly number[] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** As much of a stand as forces are measured against. */
type Felt = Pick<Stand, "ratedTipping"> & {
  readonly geometry: Pick<Stand["geometry"], "posed">;
  readonly rating: Pick<Stand["rating"], "ratedTipLoadN" | "reason">;
};

/** What the ropes do to the ladder and the vehicle in one travel case. */
export function feelAerial(
  plan: Plan,
  { geometry: { posed }, rating, ratedTipping }: Felt,
  state: RigState,
  travel: TravelCase,
): FeltForces {
  const forces = pointForces(state, travel);
  const points: PointForce[] = forces.map(({ point, at, forceN }) => ({
    pointId: point.id,
    name: point.name,
    at,
    forceN,
    ...forceInBeamAxes(posed, forceN),
  }));
  const resultantN = forces.reduce((sum, f) => add(sum, f.forceN), ZERO);
  const onVehicle = [
    ...forces.map(({ at, forceN }) => ({ at, forceN })),
    ...state.mains.flatMap((m) => framePulls(m, travel)),
  ];
  return {
    points,
    resultantN,
    inBeam: forceInBeamAxes(posed, resultantN),
    utilisations: utilisations(plan.aerial.device, posed, forces, rating),
    root: beamSection(
      forces.map((f) => beamLoadAt(posed, f.point, f.forceN)),
      0,
    ),
    tipping: tippingMoments(ratedTipping, onVehicle),
    onVehicle,
  };
}

/** The same forces along the ladder, beside those of the rated tip load: for drawings and tables. */
export function feelAlong(
  plan: Plan,
  { geometry: { posed }, rating: { ratedTipLoadN } }: Stand,
  state: RigState,
  travel: TravelCase,
): Pick<AerialForces, "curve" | "ratedCurve"> {
  const loads = pointForces(state, travel).map((f) => beamLoadAt(posed, f.point, f.forceN));
  const stations = STATIONS.map((s) => s * posed.lengthM);
  return {
    curve: beamCurves(posed.lengthM, loads, stations),
    ratedCurve: ratedTipLoadN === null ? null : ratedBeamCurves(plan.aerial.device, posed, ratedTipLoadN, stations),
  };
}

/** What each rigging point in use carries. */
export function pointForces({ mains }: RigState, travel: TravelCase) {
  return [...new Set(mains.map((m) => m.laid.point))].map((point) => {
    const own = mains.filter((m) => m.laid.point === point);
    return {
      point,
      at: own[0]?.laid.pointAt ?? ZERO,
      forceN: own.reduce((sum, m) => add(sum, tipPull(m, travel)), ZERO),
    };
  });
}

/** What the rope does to the tip sheave, and so to the rigging point its sling hangs from. */
const tipPull = (main: MainState, travel: TravelCase): SiteVector => sheavePull(main.nodes, main.tensionsN[travel], 1);

/** What the rope does to the redirects and the brake that are made fast to the vehicle. */
const framePulls = (main: MainState, travel: TravelCase): { at: SiteVector; forceN: SiteVector }[] =>
  main.nodes.flatMap((node, i) =>
    node.onVehicle && node.kind !== "tip"
      ? [{ at: node.at, forceN: sheavePull(main.nodes, main.tensionsN[travel], i) }]
      : [],
  );
