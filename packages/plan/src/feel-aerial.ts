import {
  add,
  type BeamLoad,
  beamCurves,
  beamLoadAt,
  forceInBeamAxes,
  jackFeet,
  jackLines,
  type PosedAerial,
  ratedBeamCurves,
  type SiteVector,
  type TipRatingAnswer,
  tippingMoments,
  utilisations,
  ZERO,
} from "@gantline/engine";
import type { AerialForces, PointForce, TravelCase } from "./evaluation.ts";
import type { MainState, RigState } from "./rig/rig-state.ts";
import { sheavePull } from "./rig/sheave-pull.ts";
import type { Plan } from "./schema/plan.ts";

/** Shares of the ladder's length at which the curves along it are given besides where they break. */
const STATIONS: readonly number[] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** What the ropes do to the ladder and the vehicle in one travel case. */
export function feelAerial(
  plan: Plan,
  posed: PosedAerial,
  state: RigState,
  rating: TipRatingAnswer,
  travel: TravelCase,
): AerialForces {
  const { device, place, pose } = plan.aerial;
  const used = [...new Set(state.mains.map((m) => m.laid.point))];
  const forces = used.map((point) => ({
    point,
    at: state.mains.find((m) => m.laid.point === point)?.laid.pointAt ?? posed.tip,
    forceN: state.mains.filter((m) => m.laid.point === point).reduce((sum, m) => add(sum, tipPull(m, travel)), ZERO),
  }));
  const points: PointForce[] = forces.map(({ point, at, forceN }) => ({
    pointId: point.id,
    name: point.name,
    at,
    forceN,
    ...forceInBeamAxes(posed, forceN),
  }));
  const resultantN = forces.reduce((sum, f) => add(sum, f.forceN), ZERO);
  const loads: BeamLoad[] = forces.map((f) => beamLoadAt(posed, f.point, f.forceN));
  const stations = STATIONS.map((s) => s * posed.lengthM);
  const onVehicle = [
    ...forces.map(({ at, forceN }) => ({ at, forceN })),
    ...state.mains.flatMap((m) => framePulls(m, travel)),
  ];
  const rated = rating.ratedTipLoadN;
  return {
    points,
    resultantN,
    inBeam: forceInBeamAxes(posed, resultantN),
    curve: beamCurves(posed.lengthM, loads, stations),
    ratedCurve: rated === null ? null : ratedBeamCurves(device, posed, rated, stations),
    utilisations: utilisations(device, posed, forces, rating),
    tipping: tippingMoments(
      device,
      place,
      pose,
      jackLines(jackFeet(device, place, knownReach(plan))),
      onVehicle,
      rated,
    ),
  };
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

/** Jack reach as entered; a jack of unknown reach is taken at full reach here, and the ledger says that it is unknown. */
export function knownReach(plan: Plan): Record<string, number> {
  return Object.fromEntries(plan.aerial.device.jacks.map((j) => [j.id, plan.aerial.jackReach[j.id] ?? 1]));
}
