/**
 * Do two pieces of plain data say the same? Numbers, strings, lists and objects of these, compared through and through.
 * Makes nothing new on the way: it is asked of every part of a drawing at every step of a drag.
 */
export function isAlike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!isAlike(a[i], b[i])) return false;
    return true;
  }
  return !Array.isArray(b) && isAlikeObject(a as Fields, b as Fields);
}

type Fields = Readonly<Record<string, unknown>>;

function isAlikeObject(a: Fields, b: Fields): boolean {
  let fields = 0;
  for (const name in a) {
    if (!(name in b) || !isAlike(a[name], b[name])) return false;
    fields += 1;
  }
  for (const _ in b) fields -= 1;
  return fields === 0;
}
