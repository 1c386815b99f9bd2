/** Version 3 asks whether power lines were looked for; of a plan of version 2 that is not known. */
export function from2(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { scene } = document;
  return {
    ...document,
    formatVersion: 3,
    ...(isObject(scene) ? { scene: { ...scene, powerLinesLookedFor: null } } : {}),
  };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
