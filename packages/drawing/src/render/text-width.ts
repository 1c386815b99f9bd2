/** Advance widths of a plain grotesque, in thousandths of the type size; from memory of common metrics, good to a few percent. */
const WIDTHS: Readonly<Record<string, number>> = {
  " ": 278,
  "\u202f": 200,
  ".": 278,
  ",": 278,
  ":": 278,
  ";": 278,
  "'": 191,
  "’": 222,
  "(": 333,
  ")": 333,
  "/": 278,
  "-": 333,
  "–": 556,
  "—": 1000,
  "−": 584,
  "+": 584,
  "=": 584,
  "≥": 549,
  "≤": 549,
  "→": 1000,
  "°": 400,
  "%": 889,
  "·": 333,
  "²": 333,
  "×": 584,
  f: 278,
  i: 222,
  j: 222,
  l: 222,
  m: 833,
  r: 333,
  s: 500,
  t: 278,
  w: 722,
  c: 500,
  k: 500,
  v: 500,
  x: 500,
  y: 500,
  z: 500,
  A: 667,
  B: 667,
  C: 722,
  D: 722,
  E: 667,
  F: 611,
  G: 778,
  H: 722,
  I: 278,
  J: 500,
  K: 667,
  L: 556,
  M: 833,
  N: 722,
  O: 778,
  P: 667,
  Q: 778,
  R: 722,
  S: 667,
  T: 611,
  U: 722,
  V: 667,
  W: 944,
  X: 667,
  Y: 667,
  Z: 611,
};
const OTHER = 556;
/** Space between letters set in capitals, in ems. */
export const CAPS_SPACING_EM = 0.08;

/** About how wide a text is on the sheet, px; used to keep texts apart, so a little generous. */
export function textWidthPx(text: string, sizePx: number, strong: boolean, caps: boolean): number {
  const shown = caps ? text.toUpperCase() : text;
  let thousandths = 0;
  let letters = 0;
  for (const letter of shown) {
    thousandths += WIDTHS[letter] ?? OTHER;
    letters += 1;
  }
  return ((thousandths / 1000) * (strong ? 1.1 : 1.02) + (caps ? letters * CAPS_SPACING_EM : 0)) * sizePx;
}
