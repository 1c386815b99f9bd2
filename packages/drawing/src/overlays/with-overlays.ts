import type { UnitSystem } from "@gantline/plan";
import type { Drawing, Viewport } from "../primitives.ts";
import { key } from "./key.ts";
import { northArrow, windArrow } from "./north-arrow.ts";
import { scaleBar } from "./scale-bar.ts";
import { surveyGrid } from "./survey-grid.ts";

export interface OverlayOptions {
  readonly system: UnitSystem;
  /** Room taken up at the foot of the sheet, px: captions on paper, a bar on the screen. */
  readonly footPx?: number;
  /** Room taken up at the head of the sheet, px. */
  readonly headPx?: number;
  /** As given to `svgTree`. */
  readonly textScale?: number;
}

/** The drawing with what stays put on the sheet: grid under it; key, scale bar and, on a plan, north and wind over it. */
export function withOverlays(
  drawing: Drawing,
  viewport: Viewport,
  { system, footPx = 0, headPx = 0, textScale = 1 }: OverlayOptions,
): Drawing {
  return {
    ...drawing,
    primitives: [
      ...surveyGrid(viewport, system, headPx, footPx),
      ...drawing.primitives,
      ...key(drawing, viewport, system, 40, 32 + headPx, textScale),
      ...scaleBar(viewport, system, 24, 26 + footPx),
      ...(drawing.id === "plan" ? northArrow(viewport, 44, 64 + headPx) : []),
      ...(drawing.wind ? windArrow(viewport, drawing.wind, 44, 124 + headPx) : []),
    ],
  };
}
