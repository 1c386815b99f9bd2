/** As the schema bounds every coordinate. */
const FARTHEST_M = 100_000;

export const within = (x: number, low: number, high: number): number => Math.min(Math.max(x, low), high);

/** A coordinate brought within what the schema allows. */
export const bounded = (x: number): number => within(x, -FARTHEST_M, FARTHEST_M);

export const boundedPoint = (x: number, y: number, z: number): [number, number, number] => [
  bounded(x),
  bounded(y),
  bounded(z),
];
