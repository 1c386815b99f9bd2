import type { Drawing } from "../primitives.ts";
import type { SvgNode } from "../render/svg-node.ts";
import { type SvgOptions, svgTree } from "../to-svg.ts";
import { fitViewport } from "../viewport.ts";

/** Only words of this priority and above: the few that a small picture can carry. */
const FRAME_WORDS = 85;
const MARGIN_PX = 12;

export interface FramePictureOptions extends SvgOptions {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A frame's drawing as it stands in the storyboard, fitted to a size, with only its most important words. */
export const framePicture = (drawing: Drawing, { widthPx, heightPx, ...options }: FramePictureOptions): SvgNode =>
  svgTree(drawing, fitViewport(drawing.bounds, widthPx, heightPx, MARGIN_PX), {
    ...options,
    leastPriority: FRAME_WORDS,
  });
