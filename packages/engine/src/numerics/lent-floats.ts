/**
 * Arrays of numbers that are lent for as long as one computation lasts and then used again: of a short computation that is done
 * a thousand times most of the memory, and a good part of the time, would go into making them.
 *
 * Who takes some notes `lentFloats` before and calls `takeBack` with it after, whatever happens between; nothing that outlives
 * it may hold on to one.
 */
const lent: Float64Array[] = [];
const free: Float64Array[][] = [];

/** How many are lent. */
export const lentFloats = (): number => lent.length;

/** An array of so many zeros. */
export function lendFloats(size: number): Float64Array {
  const again = free[size]?.pop();
  const floats = again ?? new Float64Array(size);
  if (again) again.fill(0);
  lent.push(floats);
  return floats;
}

/** Takes back all that were lent since there were so many. */
export function takeBack(down: number): void {
  while (lent.length > down) {
    const floats = lent.pop()!;
    const same = free[floats.length];
    if (same) same.push(floats);
    else free[floats.length] = [floats];
  }
}
