import { STANDARD_GRAVITY_MS2 } from "../base/constants.ts";
import type { Failure } from "../base/outcome.ts";
import type { BeamPiece } from "./beam-deflection.ts";
import type { LadderSection } from "./device.ts";

/** Lengths nearer than this are one place, m. */
const SAME_PLACE_M = 1e-9;

/**
 * What beam do the telescoped sections make at this length and elevation?
 *
 * The base section starts at the pivot; every moving section is run out by the same amount beyond the one it slides in,
 * so overlaps share the loss evenly among equal sections. In an overlap stiffness and weight of the sections add up. What
 * of a section lies behind the pivot is left out. Sections run from base to fly. Weight is spread evenly over a section
 * and split square to the beam and along it by the elevation.
 * Fails when the length is shorter than the base section or so long that sections would part.
 */
export function telescopedPieces(
  sections: readonly LadderSection[],
  lengthM: number,
  elevationRad: number,
): { readonly ok: true; readonly pieces: readonly BeamPiece[] } | Failure<"lengthOutOfReach"> {
  const base = sections[0];
  const moving = sections.length - 1;
  const runOutM = base && moving > 0 ? (lengthM - base.lengthM) / moving : 0;
  const parts = sections.find((s, i) => i > 0 && s.lengthM < runOutM + SAME_PLACE_M);
  if (!base || runOutM < -SAME_PLACE_M || parts || (moving === 0 && Math.abs(lengthM - base.lengthM) > SAME_PLACE_M)) {
    return {
      ok: false,
      code: "lengthOutOfReach",
      where: "sections",
      hint: "The sections, as entered, cannot make a ladder of this length: check their lengths.",
    };
  }

  const spans = sections.map((section, i) => {
    const toM = i === moving ? lengthM : base.lengthM + i * runOutM;
    return { fromM: Math.max(0, toM - section.lengthM), toM, section };
  });
  const ends = spans.flatMap((s) => [s.fromM, s.toM]).sort((a, b) => a - b);
  const distinct = ends.filter((end, i) => i === 0 || end - (ends[i - 1] as number) > SAME_PLACE_M);

  const pieces = distinct.slice(1).map((toM, i): BeamPiece => {
    const fromM = distinct[i] as number;
    const middle = (fromM + toM) / 2;
    const here = spans.filter((s) => s.fromM < middle && middle < s.toM).map((s) => s.section);
    const weight = here.reduce((sum, s) => sum + (s.massKg * STANDARD_GRAVITY_MS2) / s.lengthM, 0);
    return {
      fromM,
      toM,
      bendingStiffnessNm2: here.reduce((sum, s) => sum + s.bendingStiffnessNm2, 0),
      weightNPerM: weight * Math.cos(elevationRad),
      axialWeightNPerM: weight * Math.sin(elevationRad),
    };
  });
  return { ok: true, pieces };
}
