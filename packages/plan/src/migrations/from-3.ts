/** Version 4 has a limit on the rope that a brake lets through; a department with a plan of version 3 has set none. */
export function from3(document: unknown): unknown {
  if (!isObject(document)) return document;
  const { policy } = document;
  return {
    ...document,
    formatVersion: 4,
    ...(isObject(policy) ? { policy: { ...policy, peakSlipM: { value: null, source: "" } } } : {}),
  };
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
