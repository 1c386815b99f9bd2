import type { Primitive, Viewport } from "./primitives.ts";
import { type LayoutOptions, layoutDrawing } from "./render/layout-drawing.ts";
import { dashLengths, type SheetMark } from "./render/sheet-mark.ts";
import type { SheetMemory } from "./render/sheet-memory.ts";
import type { SvgNode } from "./render/svg-node.ts";
import { CAPS_SPACING_EM } from "./render/text-width.ts";
import { THEMES, type Theme, type ThemeName } from "./theme.ts";
import type { ScreenPoint } from "./viewport.ts";

export const FONT_FAMILY = "'Liberation Sans', Arial, Helvetica, 'DejaVu Sans', sans-serif";

export interface SvgOptions extends LayoutOptions {
  readonly theme?: ThemeName;
  readonly fontFamily?: string;
}

const NO_CHILDREN: readonly SvgNode[] = [];

const node = (
  tag: SvgNode["tag"],
  attrs: SvgNode["attrs"],
  children: readonly SvgNode[] = NO_CHILDREN,
  text?: string,
): SvgNode => (text === undefined ? { tag, attrs, children } : { tag, attrs, children, text });

const keyed = (tag: SvgNode["tag"], { key }: SheetMark, attrs: SvgNode["attrs"], rest: Partial<SvgNode>): SvgNode => ({
  tag,
  attrs,
  children: NO_CHILDREN,
  ...(key === undefined ? {} : { key }),
  ...rest,
});

/**
 * A drawing as a tree of SVG elements for a viewport: paper, then everything on it.
 * Lengths are sheet pixels, rounded to a tenth. Colours are written out, so that the tree can be stored or printed as it is.
 *
 * @param memory of a drawing that is drawn over and over: what is the same as the last time is taken from there
 */
export function svgTree(
  drawing: { readonly title: string; readonly description: string; readonly primitives: readonly Primitive[] },
  viewport: Viewport,
  options: SvgOptions = {},
  memory: SheetMemory | null = null,
): SvgNode {
  const theme = THEMES[options.theme ?? "day"];
  const { widthPx, heightPx } = viewport;
  memory?.begin([viewport, options.theme, options.textScale]);
  const make = (mark: SheetMark): SvgNode => markNode(mark, theme);
  const marks = layoutDrawing(drawing.primitives, viewport, options, memory);
  const body = marks.map((mark) => (memory && mark.kind !== "text" ? memory.node(mark, make) : make(mark)));
  return node(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: tenth(widthPx),
      height: tenth(heightPx),
      viewBox: `0 0 ${tenth(widthPx)} ${tenth(heightPx)}`,
      role: "img",
      "font-family": options.fontFamily ?? FONT_FAMILY,
    },
    [
      node("title", {}, [], drawing.title),
      node("desc", {}, [], drawing.description),
      node("rect", { width: tenth(widthPx), height: tenth(heightPx), fill: theme.paper }),
      node("g", { fill: "none", "stroke-linecap": "round", "stroke-linejoin": "round" }, body),
    ],
  );
}

function markNode(mark: SheetMark, theme: Theme): SvgNode {
  if (mark.kind === "text") return textNode(mark, theme);
  const attrs: Record<string, string | number> = {};
  if (mark.kind === "path") attrs.d = pathData(mark.parts, mark.closed);
  else {
    attrs.cx = tenth(mark.at[0]);
    attrs.cy = tenth(mark.at[1]);
    attrs.r = tenth(mark.radiusPx);
  }
  if (mark.fill) {
    attrs.fill = theme[mark.fill];
    if (mark.fillOpacity !== undefined && mark.fillOpacity < 1) attrs["fill-opacity"] = hundredth(mark.fillOpacity);
  }
  if (mark.stroke) {
    attrs.stroke = theme[mark.stroke];
    attrs["stroke-width"] = hundredth(mark.widthPx ?? 1);
    if (mark.dash)
      attrs["stroke-dasharray"] = dashLengths(mark.dash, mark.widthPx ?? 1)
        .map(tenth)
        .join(" ");
  }
  return keyed(mark.kind, mark, attrs, mark.title ? { children: [node("title", {}, NO_CHILDREN, mark.title)] } : {});
}

function textNode(mark: Extract<SheetMark, { kind: "text" }>, theme: Theme): SvgNode {
  const x = tenth(mark.at[0]);
  const y = tenth(mark.at[1]);
  const attrs: Record<string, string | number> = { x, y, "font-size": tenth(mark.sizePx), fill: theme[mark.tone] };
  if (mark.align !== "start") attrs["text-anchor"] = mark.align;
  if (mark.strong) attrs["font-weight"] = 700;
  if (mark.italic) attrs["font-style"] = "italic";
  if (mark.caps) attrs["letter-spacing"] = tenth(CAPS_SPACING_EM * mark.sizePx);
  if (mark.rotateDeg !== 0) attrs.transform = `rotate(${tenth(mark.rotateDeg)} ${x} ${y})`;
  if (mark.halo) {
    attrs.stroke = theme.paper;
    attrs["stroke-width"] = 3.5;
    attrs["paint-order"] = "stroke";
  }
  return keyed("text", mark, attrs, { text: mark.caps ? mark.text.toUpperCase() : mark.text });
}

function pathData(parts: readonly (readonly ScreenPoint[])[], closed: boolean): string {
  let data = "";
  for (const part of parts) {
    let to = "M";
    for (const [x, y] of part) {
      data += `${to}${tenth(x)} ${tenth(y)}`;
      to = "L";
    }
    if (closed) data += "Z";
  }
  return data;
}

/** To a tenth of a pixel, without "-0". */
export const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
const hundredth = (value: number): number => Math.round(value * 100) / 100 + 0;
