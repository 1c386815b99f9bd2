import type { Primitive, WorldPoint } from "../primitives.ts";
import type { SvgNode } from "../render/svg-node.ts";
import { type SvgOptions, svgTree } from "../to-svg.ts";

/** Free at the edges of a sheet, its head, and a line of text, px. */
export const EDGE_PX = 14;
export const HEAD_PX = 44;
export const LINE_PX = 15;

export type Place = (xPx: number, yPx: number) => WorldPoint;

export interface SheetInk {
  readonly primitives: Primitive[];
  /** px right and down as a world point. */
  readonly at: Place;
}

/** An SVG inside another, which it does not reach beyond. */
export const placed = (node: SvgNode, x: number, y: number): SvgNode => ({
  ...node,
  attrs: { ...node.attrs, x: Math.round(x * 10) / 10, y: Math.round(y * 10) / 10, overflow: "hidden" },
});

/** Title and the plan's name over a rule, and captions under another. */
export function headAndFoot(
  { title, name, captions }: { readonly title: string; readonly name: string; readonly captions: readonly string[] },
  widthPx: number,
  footPx: number,
  at: Place,
): readonly Primitive[] {
  const rule = (y: number): readonly [WorldPoint, WorldPoint] => [at(EDGE_PX, y), at(widthPx - EDGE_PX, y)];
  return [
    { ...sheetText(at(EDGE_PX, HEAD_PX - 14), title, 15, "strong"), caps: true },
    { ...sheetText(at(widthPx - EDGE_PX, HEAD_PX - 14), name, 14), align: "end" },
    { kind: "strokes", lines: [rule(HEAD_PX), rule(footPx)], style: { stroke: "ink", widthPx: 0.8 } },
    ...captions.map((t, i) => sheetText(at(EDGE_PX, footPx + (i + 1.1) * LINE_PX), t, 11)),
  ];
}

/** Plain words on a sheet. */
export const sheetText = (
  at: WorldPoint,
  words: string,
  sizePx: number,
  weight: "regular" | "strong" = "regular",
): Extract<Primitive, { kind: "text" }> => ({
  kind: "text",
  at,
  text: words,
  align: "start",
  sizePx,
  tone: "ink",
  weight,
});

interface SheetParts {
  readonly title: string;
  readonly description: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly options: SvgOptions;
}

/** A sheet put together from pictures, with ink of its own over them. */
export function composedSheet(primitives: readonly Primitive[], parts: readonly SvgNode[], of: SheetParts): SvgNode {
  const { title, description, widthPx, heightPx, options } = of;
  const viewport = { widthPx, heightPx, centre: [widthPx / 2, -heightPx / 2], pxPerM: 1 } as const;
  const tree = svgTree({ title, description, primitives }, viewport, options);
  const ink = tree.children.at(-1);
  return { ...tree, children: [...tree.children.slice(0, -1), ...parts, ...(ink ? [ink] : [])] };
}
