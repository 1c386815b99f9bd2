/** Version 2 has a skate tether and the stages of an evolution; a plan of version 1 is the one position its rig names. */
export function from1(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { rig } = document;
  const load = isObject(rig) && isObject(rig.load) ? rig.load : null;
  return {
    ...document,
    formatVersion: 2,
    ...(isObject(rig) ? { rig: { ...rig, tether: null } } : {}),
    evolution: { startM: load?.positionM ?? null, stages: [] },
  };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
