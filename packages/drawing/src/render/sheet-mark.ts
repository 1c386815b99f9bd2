import type { Dash, Tone } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";

/** One thing to draw on the sheet, in pixels, with nothing left to decide: what an SVG, a canvas or a PDF writer needs. */
export type SheetMark = {
  /** The same from one drawing to the next of the same things: which of its primitives it belongs to, and which part of it. */
  readonly key?: string;
} & (
  | {
      readonly kind: "path";
      readonly parts: readonly (readonly ScreenPoint[])[];
      readonly closed: boolean;
      readonly stroke?: Tone;
      readonly widthPx?: number;
      readonly dash?: Dash;
      readonly fill?: Tone;
      readonly fillOpacity?: number;
      readonly title?: string;
    }
  | {
      readonly kind: "circle";
      readonly at: ScreenPoint;
      readonly radiusPx: number;
      readonly stroke?: Tone;
      readonly widthPx?: number;
      readonly dash?: Dash;
      readonly fill?: Tone;
      readonly fillOpacity?: number;
      readonly title?: string;
    }
  | {
      readonly kind: "text";
      /** Where the baseline begins, is centred or ends, by `align`. */
      readonly at: ScreenPoint;
      readonly text: string;
      readonly align: "start" | "middle" | "end";
      readonly sizePx: number;
      readonly tone: Tone;
      readonly strong: boolean;
      readonly italic: boolean;
      readonly caps: boolean;
      readonly halo: boolean;
      /** Clockwise on the sheet, as SVG has it. */
      readonly rotateDeg: number;
    }
);

/** Dash lengths in px for a line weight. */
export function dashLengths(dash: Dash, widthPx: number): readonly number[] {
  const w = Math.max(1, widthPx);
  if (dash === "dotted") return [0.1, 2.6 * w + 1];
  if (dash === "chain") return [7 + 3 * w, 3, 1.5, 3];
  return [4 + 2.5 * w, 2.5 + w];
}
