/**
 * Version 3 asks whether power lines were looked for, and how wide the legs of a basket hitch are spread; of a plan of version 2
 * neither is known.
 */
export function from2(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { scene, rig } = document;
  return {
    ...document,
    formatVersion: 3,
    ...(isObject(scene) ? { scene: { ...scene, powerLinesLookedFor: null } } : {}),
    ...(isObject(rig) && Array.isArray(rig.mainLines)
      ? { rig: { ...rig, mainLines: rig.mainLines.map(withBasketAngles) } }
      : {}),
  };
}

const NOT_KNOWN = { basketAngleRad: null };

function withBasketAngles(line: unknown): unknown {
  if (!isObject(line)) return line;
  const { tip, redirects } = line;
  return {
    ...line,
    ...(isObject(tip) ? { tip: { ...tip, ...NOT_KNOWN } } : {}),
    ...(Array.isArray(redirects)
      ? { redirects: redirects.map((r: unknown) => (isObject(r) ? { ...r, ...NOT_KNOWN } : r)) }
      : {}),
  };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
