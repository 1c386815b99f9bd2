/** A place on the site in words: "2.25 m east, 4.00 m south". */
export const placeName = (
  [x, y]: readonly [number, number],
  write: (value: number, quantity: "length") => string,
): string =>
  `${write(Math.abs(x), "length")} ${x < 0 ? "west" : "east"}, ${write(Math.abs(y), "length")} ${y < 0 ? "south" : "north"}`;
