/** Limits that version 1 did not have: none is set. */
const LATER_LIMITS = ["peakPersonN", "peakStrengthFactor", "peakRatingFactor", "peakBrakeN", "brakeSlipN"];
const NOT_SET = { value: null, source: "" };

/**
 * Version 2 has a skate tether, the stages of an evolution, the vehicle's centre of mass, and what counts when a rope goes; a
 * plan of version 1 is the one position its rig names, and of the rest nothing is known or set.
 */
export function from1(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { rig, aerial, gear, policy } = document;
  const device = isObject(aerial) && isObject(aerial.device) ? aerial.device : null;
  const load = isObject(rig) && isObject(rig.load) ? rig.load : null;
  return {
    ...document,
    formatVersion: 2,
    ...(isObject(aerial) && device ? { aerial: { ...aerial, device: { ...device, massCentre: null } } } : {}),
    ...(isObject(rig) ? { rig: { ...rig, tether: null } } : {}),
    ...(Array.isArray(gear) ? { gear: gear.map(withHandsOff) } : {}),
    ...(isObject(policy)
      ? { policy: { ...policy, ...Object.fromEntries(LATER_LIMITS.map((name) => [name, NOT_SET])) } }
      : {}),
    evolution: { startM: load?.positionM ?? null, stages: [] },
  };
}

const withHandsOff = (piece: unknown): unknown =>
  isObject(piece) && piece.kind === "brake" ? { ...piece, holdsHandsOff: null } : piece;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
