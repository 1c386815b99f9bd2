import { beamDeflection, deflectionAt, STANDARD_GRAVITY_MS2, telescopedPieces } from "@gantline/engine";
import type { Plan } from "../schema/plan.ts";
import type { LetGoChoices } from "./let-go-plan-types.ts";

type Give = NonNullable<LetGoChoices["tip"]>;

/** Slices that the mass of each piece is summed in. */
const SLICES = 20;
/** Any force does: the beam is linear, N. */
const FORCE_N = 1;

/**
 * How does the ladder's tip give square to the ladder, and how much mass moves with it; from the sections as entered?
 *
 * Stiffness of a stepped cantilever clamped at the pivot (`beamDeflection`, first order); mass by Rayleigh's method, each
 * part of the ladder counted by the square of how far it goes when the tip goes by 1. Not in it: play in the slides, give of
 * turntable, jacks and lift cylinders, which make it softer; a platform, which makes it heavier. A text where it is not known.
 *
 * Source: Euler–Bernoulli beam; for an even one 3 EI/L³, and ∫ ((3x² − x³)/2)² dx = 33/140 of its mass.
 */
export function tipGive({ aerial: { device, pose } }: Plan): Give | { readonly says: string } {
  if (device.sections === null || device.sections.length === 0)
    return {
      says: "How the tip gives is not known: length, mass and bending stiffness of the ladder's sections are not entered.",
    };
  const telescoped = telescopedPieces(device.sections, pose.lengthM, 0);
  if (!telescoped.ok) return { says: `How the tip gives is not known. ${telescoped.hint}` };
  const { pieces } = telescoped;
  const bare = pieces.map((piece) => ({ ...piece, weightNPerM: 0 }));
  const bent = beamDeflection(bare, [{ stationM: pose.lengthM, transverseN: FORCE_N }], 1);
  if (!bent.ok || !(bent.tipDeflectionM > 0)) return { says: "How the tip gives could not be worked out." };
  const massKg = pieces.reduce((sum, { fromM, toM, weightNPerM }) => {
    const step = (toM - fromM) / SLICES;
    const squares = Array.from({ length: SLICES }, (_, k) => {
      const { deflectionM } = deflectionAt(bent, fromM + (k + 0.5) * step);
      return (deflectionM / bent.tipDeflectionM) ** 2;
    });
    return sum + (weightNPerM / STANDARD_GRAVITY_MS2) * step * squares.reduce((a, b) => a + b, 0);
  }, 0);
  return { stiffnessNM: FORCE_N / bent.tipDeflectionM, massKg };
}
