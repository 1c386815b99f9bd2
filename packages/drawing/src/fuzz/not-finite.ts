/** Every number in a value that is not finite, by path. */
export function notFinite(value: unknown, path: string): readonly string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([k, v]) => notFinite(v, `${path}.${k}`));
}
