/** Whole numbers and choices that are the same for the same seed, on every machine. Mulberry32; from memory, no source. */
export interface SeededRandom {
  /** In [0, 1). */
  readonly fraction: () => number;
  /** From 0 up to, not including, `end`. */
  readonly below: (end: number) => number;
  readonly oneOf: <T>(choices: readonly T[]) => T;
}

export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0;
  const fraction = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (end: number): number => Math.floor(fraction() * end);
  return {
    fraction,
    below,
    oneOf: <T>(choices: readonly T[]): T => {
      if (choices.length === 0) throw new Error("nothing to choose from");
      return choices[below(choices.length)] as T;
    },
  };
}
