/** Items side by side that are alike, as first and last index of each run. */
export function runsOf<T>(
  items: readonly T[],
  alike: (a: T, b: T) => boolean,
): readonly (readonly [first: number, last: number])[] {
  const runs: [number, number][] = [];
  items.forEach((item, i) => {
    const run = runs.at(-1);
    if (run && alike(items[i - 1] as T, item)) run[1] = i;
    else runs.push([i, i]);
  });
  return runs;
}
