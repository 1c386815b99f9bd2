/**
 * Version 2 has a skate tether, the stages of an evolution and the vehicle's centre of mass; a plan of version 1 is the one
 * position its rig names, and the centre is not known.
 */
export function from1(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { rig, aerial } = document;
  const device = isObject(aerial) && isObject(aerial.device) ? aerial.device : null;
  const load = isObject(rig) && isObject(rig.load) ? rig.load : null;
  return {
    ...document,
    formatVersion: 2,
    ...(isObject(aerial) && device ? { aerial: { ...aerial, device: { ...device, massCentre: null } } } : {}),
    ...(isObject(rig) ? { rig: { ...rig, tether: null } } : {}),
    evolution: { startM: load?.positionM ?? null, stages: [] },
  };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
