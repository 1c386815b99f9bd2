import type { Failure } from "../base/outcome.ts";
import { addScaled, type SiteVector } from "../base/vector.ts";
import type { BeamLoad } from "./beam-curves.ts";
import { type BeamDeflection, beamDeflection, type DeflectionLoad } from "./beam-deflection.ts";
import type { AerialDevice } from "./device.ts";
import type { PosedAerial } from "./pose-aerial.ts";
import { telescopedPieces } from "./telescoped-pieces.ts";

/** A load on the beam; `ropesBack` are the ropes in it that run to fixed places near the ladder's line, such as returns to the base. */
export interface SagLoad extends BeamLoad {
  readonly ropesBack?: readonly { readonly tensionN: number; readonly lengthM: number }[];
}

/**
 * How far does the tip sink below the straight ladder, under its own weight and the rigging?
 *
 * Stepped cantilever from the device's sections (`telescopedPieces`, `beamDeflection`), in the vertical plane only;
 * measured square to the undeflected ladder, whose axis is that of the base at the pivot. `order` 2 (the default) counts
 * the compression acting on the bent ladder. A rope listed in `ropesBack` follows the tip, which makes the ladder stiffer;
 * left out, its pull is taken to keep its direction, which overstates the sag. Not counted: play in the slides, give of
 * the turntable, jacks and lift cylinders, sideways bending, twist. Makers' stiffnesses are seldom published: treat the
 * answer as an estimate.
 */
export function tipSag(
  device: AerialDevice,
  posed: PosedAerial,
  loads: readonly SagLoad[],
  order: 1 | 2 = 2,
): BeamDeflection | Failure<"noSections" | "lengthOutOfReach" | "buckles" | "notABeam"> {
  if (device.sections === null || device.sections.length === 0) {
    return {
      ok: false,
      code: "noSections",
      where: "sections",
      hint: "Enter length, mass and bending stiffness of each ladder section.",
    };
  }
  const telescoped = telescopedPieces(device.sections, posed.lengthM, posed.elevationRad);
  return telescoped.ok ? beamDeflection(telescoped.pieces, loads.map(asDeflectionLoad), order) : telescoped;
}

function asDeflectionLoad({ stationM, offset, force, ropesBack = [] }: SagLoad): DeflectionLoad {
  return {
    stationM,
    transverseN: -force.normal,
    momentNm: offset.normal * force.axial - offset.axial * force.normal,
    compressionN: -force.axial,
    restoringNPerM: ropesBack.reduce((sum, rope) => sum + (rope.lengthM > 0 ? rope.tensionN / rope.lengthM : 0), 0),
  };
}

/** Where the tip comes to lie when it sinks by `sagM` square to the ladder, site frame, m. */
export function deflectedTip(posed: PosedAerial, sagM: number): SiteVector {
  return addScaled(posed.tip, posed.axes.normal, -sagM);
}

/**
 * The posed device with its tip sunk. Rigging points follow the tip; the axes, and with them the split of forces,
 * stay those of the straight ladder (the tip's own slope would move a point 0.5 m below the tip by some 2 cm at 2°).
 */
export function deflectedAerial(posed: PosedAerial, sagM: number): PosedAerial {
  return { ...posed, tip: deflectedTip(posed, sagM) };
}
