import type { AppliedForce } from "@gantline/engine";
import type { Situation } from "../situation.ts";
import type { Phrase } from "../units/quantity.ts";
import { notSolved } from "./worst-case.ts";

/** What bears on the vehicle, or why that is not known. */
export type VehicleForces =
  | {
      readonly known: true;
      /** The vehicle's own weight, its ladder as posed. */
      readonly weights: readonly AppliedForce[];
      /** From the ropes, one list for each travel case; one empty list with nothing on them. */
      readonly ropes: readonly (readonly AppliedForce[])[];
    }
  | { readonly known: false; readonly says: Phrase };

/** Weight of the vehicle where it acts, and the pull of the ropes, where every part of both is known. */
export function vehicleForces(s: Situation): VehicleForces {
  const { device, jackReach } = s.plan.aerial;
  const { weights } = s.stand;
  if (weights === null)
    return {
      known: false,
      says: ["Not known: the vehicle's mass, its centre or its ladder sections are not entered."],
    };
  if (device.jacks.some((j) => (jackReach[j.id] ?? null) === null))
    return { known: false, says: ["Not known how far every jack is run out."] };
  if (s.plan.rig.load.parts.length === 0) return { known: true, weights, ropes: [[]] };
  const frictionKnown = s.laid.mains.every((m) => !m.efficiencies.includes(null));
  const ropes = frictionKnown ? s.cases.flatMap((travel) => (s.felt[travel] ? [s.felt[travel].onVehicle] : [])) : [];
  return ropes.length > 0 ? { known: true, weights, ropes } : { known: false, says: notSolved(s) };
}
