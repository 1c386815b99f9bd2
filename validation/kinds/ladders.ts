import {
  type AerialDevice,
  addScaled,
  asSite,
  type BeamPiece,
  beamCurves,
  beamDeflection,
  beamLoadAt,
  forceInBeamAxes,
  norm,
  poseAerial,
  poseForTip,
  type RiggingPoint,
  type SiteVector,
  site,
} from "@gantline/engine";
import { EXAMPLE_DEVICES } from "@gantline/plan";
import { degrees, type Inputs, listIn, numberIn, numbersIn, radians } from "../validation-case.ts";
import type { Way } from "../way.ts";
import { solved } from "./ropes.ts";

const PLACE = { turntableX: 0, turntableY: 0, groundZM: 0, headingRad: 0 };
const EAST = Math.PI / 2;

/** A bare ladder whose pivot is over the origin. Reach and elevation of the example device do not enter. */
function bareLadder(pivotHeightM: number): AerialDevice {
  const [device] = EXAMPLE_DEVICES;
  if (!device) throw new Error("no example device");
  return {
    ...device,
    pivotHeightM,
    pivotSetbackM: 0,
    lengthMinM: 0.1,
    lengthMaxM: 1000,
    elevationMinRad: -1.5,
    elevationMaxRad: 1.57,
  };
}

const pointAt = (alongM: number): RiggingPoint => ({
  id: "p",
  name: "p",
  on: "ladder",
  alongM,
  lateralM: 0,
  dropM: 0,
  ratingN: null,
  ratingBasis: null,
  ratingSource: "",
  structural: true,
});

const onNode = (forces: Readonly<Record<string, readonly [number, number, number]>>, node: string): SiteVector =>
  asSite(forces[node] ?? [Number.NaN, 0, 0]);

/**
 * A rope from a load over the tip sheave and back along the ladder. The case's efficiency holds at every elevation;
 * the product's is quoted for a wrap of 180° and is η^(θ/π) over θ = 90° + elevation, so it is given as e^(π/θ).
 */
export function ladderTip(inputs: Inputs): readonly Way[] {
  const elevationRad = radians(numberIn(inputs, "elevationDeg"));
  const posed = poseAerial(bareLadder(40), PLACE, { bearingRad: 0.7, elevationRad, lengthM: 28 });
  const wrap = Math.PI / 2 + elevationRad;
  const motion = inputs.motion;
  const [x, y, z] = posed.tip;
  const answer = solved({
    nodes: {
      load: { position: [x, y, z - 15], free: true, massKg: numberIn(inputs, "massKg") },
      tip: { position: posed.tip },
      base: { position: posed.pivot },
    },
    lines: {
      main: {
        through: ["load", "tip", "base"],
        lengthM: 43,
        axialStiffnessN: 60_000,
        efficiency: [numberIn(inputs, "efficiency") ** (Math.PI / wrap)],
        travel: motion === "raise" ? "toEnd" : motion === "lower" ? "toStart" : "none",
      },
    },
  });
  const felt = forceInBeamAxes(posed, onNode(answer.forcesOnFixedN, "tip"));
  const returning = answer.lines.main?.tensionsN[1] ?? Number.NaN;
  return [
    {
      way: "network",
      values: {
        returnTension: returning,
        resultant: felt.resultantN,
        axial: felt.compressionN,
        transverse: -felt.normalN,
        lateral: felt.lateralN,
      },
    },
  ];
}

/** A rope that leaves the tip for a directional beside the ladder's plane. */
export function offLineReturn(inputs: Inputs): readonly Way[] {
  const elevationRad = radians(numberIn(inputs, "elevationDeg"));
  const posed = poseAerial(bareLadder(numberIn(inputs, "pivotHeightM")), PLACE, {
    bearingRad: EAST,
    elevationRad,
    lengthM: numberIn(inputs, "lengthM"),
  });
  const [dx = 0, dy = 0, dz = 0] = numbersIn(inputs, "directionalM");
  const [x, y, z] = posed.tip;
  const answer = solved({
    nodes: {
      below: { position: [x, y, z - 15] },
      tip: { position: posed.tip },
      directional: { position: [dx, dy, dz] },
    },
    lines: { rope: { through: ["below", "tip", "directional"], tensionN: numberIn(inputs, "tension") } },
  });
  const felt = forceInBeamAxes(posed, onNode(answer.forcesOnFixedN, "tip"));
  return [
    {
      way: "network",
      values: {
        tipX: x,
        tipZ: z,
        lineLength: answer.lines.rope?.segmentsM[1] ?? Number.NaN,
        sideways: Math.abs(felt.lateralN),
      },
    },
  ];
}

/** A boom on a hinge, held by one cable: its pull from the moment at the hinge, and what the hinge carries. In a vertical plane. */
export function boomOnHinge(inputs: Inputs): readonly Way[] {
  const lengthM = numberIn(inputs, "lengthM");
  const posed = poseAerial(bareLadder(10), PLACE, {
    bearingRad: EAST,
    elevationRad: radians(numberIn(inputs, "boomDeg")),
    lengthM,
  });
  const load = (share: number, force: SiteVector) => beamLoadAt(posed, pointAt(lengthM * (1 - share)), force);
  const weights = listIn(inputs, "weights").map((w) =>
    load(numberIn(w, "atShare"), site(0, 0, -numberIn(w, "weight"))),
  );
  const angle = radians(numberIn(inputs, "cableDeg"));
  const cableAt = numberIn(inputs, "cableAtShare");
  const cable = (pull: number) => load(cableAt, site(pull * Math.cos(angle), 0, pull * Math.sin(angle)));
  const atHinge = (loads: Parameters<typeof beamCurves>[1]) => {
    const section = beamCurves(lengthM, loads)[0];
    if (!section) throw new Error("no section at the hinge");
    return section;
  };
  const pull = -atHinge(weights).momentNm / atHinge([cable(1)]).momentNm;
  const { compressionN, shearN } = atHinge([...weights, cable(pull)]);
  // The hinge pushes along the boom with the compression and across it with the shear.
  const push = addScaled(addScaled(site(0, 0, 0), posed.axes.axial, compressionN), posed.axes.normal, shearN);
  return [{ way: "beam", values: { cable: pull, hinge: norm(push), hingeDeg: degrees(Math.atan2(push[2], push[0])) } }];
}

/** Deflection of a cantilever of one or more stretches. */
export function cantilever(inputs: Inputs): readonly Way[] {
  const elevation = "elevationDeg" in inputs ? Math.cos(radians(numberIn(inputs, "elevationDeg"))) : 1;
  const pieces = listIn(inputs, "pieces").map(
    (p): BeamPiece => ({
      fromM: numberIn(p, "fromM"),
      toM: numberIn(p, "toM"),
      bendingStiffnessNm2: numberIn(p, "bendingStiffnessNm2"),
      weightNPerM: "weightNPerM" in p ? numberIn(p, "weightNPerM") * elevation : 0,
    }),
  );
  const stationM = pieces.at(-1)?.toM ?? 0;
  const load = {
    stationM,
    transverseN: numberIn(inputs, "tipLoadN"),
    compressionN: "tipCompressionN" in inputs ? numberIn(inputs, "tipCompressionN") : 0,
  };
  const order = inputs.order === 2 ? 2 : 1;
  const answer = beamDeflection(pieces, [load], order);
  if (!answer.ok) throw new Error(answer.code);
  return [
    {
      way: "beam",
      values: {
        deflection: answer.tipDeflectionM,
        slope: answer.tipSlopeRad,
        rootMoment: answer.stations[0]?.momentNm ?? Number.NaN,
      },
    },
  ];
}

/** An evenly loaded beam on two supports: half of it is a cantilever clamped at mid-span and pushed up at its end. */
export function simplySupported(inputs: Inputs): readonly Way[] {
  const half = numberIn(inputs, "lengthM") / 2;
  const weight = numberIn(inputs, "weightNPerM");
  const answer = beamDeflection(
    [{ fromM: 0, toM: half, bendingStiffnessNm2: numberIn(inputs, "bendingStiffnessNm2"), weightNPerM: weight }],
    [{ stationM: half, transverseN: -weight * half }],
  );
  if (!answer.ok) throw new Error(answer.code);
  return [{ way: "beam", values: { sag: -answer.tipDeflectionM } }];
}

/** How long a ladder must be to reach out so far at an elevation. */
export function ladderReach(inputs: Inputs): readonly Way[] {
  const reach = numberIn(inputs, "reach");
  const elevation = radians(numberIn(inputs, "elevationDeg"));
  const found = poseForTip(bareLadder(1), PLACE, site(reach, 0, 1 + reach * Math.tan(elevation)));
  if (!("pose" in found)) throw new Error("no pose");
  return [{ way: "pose", values: { length: found.pose.lengthM, elevationDeg: degrees(found.pose.elevationRad) } }];
}
