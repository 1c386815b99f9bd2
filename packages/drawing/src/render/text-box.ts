import type { Primitive } from "../primitives.ts";
import type { Box } from "./occupancy.ts";
import { textWidthPx } from "./text-width.ts";

export type TextPrimitive = Extract<Primitive, { kind: "text" }> & { readonly key?: string };
export type DimensionPrimitive = Extract<Primitive, { kind: "dimension" }>;

/** Room a sign takes before its text, in type sizes. */
export const SIGN_EM = 1.25;
const ASCENT = 0.74;
const DESCENT = 0.22;
const PAD_PX = 1.5;

/** Room a text takes along its line, with its sign, px. */
export const sizeOf = (text: TextPrimitive): number =>
  textWidthPx(text.text, text.sizePx, text.weight === "strong", text.caps ?? false) +
  (text.sign ? SIGN_EM * text.sizePx : 0);

/** The box of a text of some width, standing nowhere yet: `standAt` puts it. */
export function boxOf(text: TextPrimitive, widthPx: number): Box {
  const rotation = text.rotateRad ?? 0;
  return {
    cx: 0,
    cy: 0,
    halfW: widthPx / 2 + PAD_PX,
    halfH: ((ASCENT + DESCENT) / 2) * text.sizePx + PAD_PX,
    ux: rotation === 0 ? 1 : Math.cos(rotation),
    uy: rotation === 0 ? 0 : -Math.sin(rotation),
  };
}

/** Moves the box to where it is filled by its text with the baseline begun, centred or ended there. */
export function standAt(
  box: Box,
  { sizePx }: TextPrimitive,
  widthPx: number,
  x: number,
  y: number,
  align: "start" | "middle" | "end",
): void {
  const along = align === "start" ? widthPx / 2 : align === "end" ? -widthPx / 2 : 0;
  const up = ((ASCENT - DESCENT) / 2) * sizePx;
  box.cx = x + along * box.ux + up * box.uy;
  box.cy = y + along * box.uy - up * box.ux;
}
