import type { Primitive } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";
import type { Box } from "./occupancy.ts";
import { textWidthPx } from "./text-width.ts";

export type TextPrimitive = Extract<Primitive, { kind: "text" }> & { readonly key?: string };
export type DimensionPrimitive = Extract<Primitive, { kind: "dimension" }>;

/** Room a sign takes before its text, in type sizes. */
export const SIGN_EM = 1.25;
const ASCENT = 0.74;
const DESCENT = 0.22;
const PAD_PX = 1.5;

interface PlacedAt {
  readonly at: ScreenPoint;
  readonly align: "start" | "middle" | "end";
}

/** Room a text takes along its line, with its sign, px. */
export const sizeOf = (text: TextPrimitive): number =>
  textWidthPx(text.text, text.sizePx, text.weight === "strong", text.caps ?? false) +
  (text.sign ? SIGN_EM * text.sizePx : 0);

/** The box a text of some width fills at a place. */
export function boxAt(text: TextPrimitive, place: PlacedAt, widthPx: number): Box {
  const rotation = text.rotateRad ?? 0;
  const ux = rotation === 0 ? 1 : Math.cos(rotation);
  const uy = rotation === 0 ? 0 : -Math.sin(rotation);
  const along = place.align === "start" ? widthPx / 2 : place.align === "end" ? -widthPx / 2 : 0;
  const up = ((ASCENT - DESCENT) / 2) * text.sizePx;
  return {
    cx: place.at[0] + along * ux + up * uy,
    cy: place.at[1] + along * uy - up * ux,
    halfW: widthPx / 2 + PAD_PX,
    halfH: ((ASCENT + DESCENT) / 2) * text.sizePx + PAD_PX,
    ux,
    uy,
  };
}
