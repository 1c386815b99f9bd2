import type { UnitSystem } from "@gantline/plan";
import { withOverlays } from "./overlays/with-overlays.ts";
import type { Drawing, Primitive, Viewport } from "./primitives.ts";
import type { SvgNode } from "./render/svg-node.ts";
import { type SvgOptions, svgTree } from "./to-svg.ts";
import { fitViewport, screenToWorld } from "./viewport.ts";

export interface SheetOptions extends SvgOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly system: UnitSystem;
  /** The plan's name, at the head. */
  readonly heading: string;
  /** Lines at the foot: the caution, and that data is an example. */
  readonly captions: readonly string[];
}

const EDGE_PX = 10;
const HEAD_PX = 44;
const LINE_PX = 15;

/** A whole sheet to print or keep: frame, heading, the drawing fitted to the room there is, and captions at the foot. */
export function svgSheet(drawing: Drawing, options: SheetOptions): SvgNode {
  const viewport = sheetViewport(drawing, options);
  const foot = footPx(options);
  const dressed = withOverlays(drawing, viewport, {
    system: options.system,
    footPx: foot,
    headPx: HEAD_PX,
    ...(options.textScale ? { textScale: options.textScale } : {}),
  });
  return svgTree(
    {
      ...dressed,
      title: `${options.heading}: ${drawing.title}`,
      primitives: [...dressed.primitives, ...border(viewport, drawing, options)],
    },
    viewport,
    { ...options, headPx: HEAD_PX, footPx: foot },
  );
}

/** The viewport a sheet shows its drawing in. */
export function sheetViewport(
  drawing: Drawing,
  options: Pick<SheetOptions, "widthPx" | "heightPx" | "captions">,
): Viewport {
  const columns = drawing.id === "section" ? 110 : 80;
  return fitViewport(drawing.bounds, options.widthPx, options.heightPx, {
    left: 60,
    right: columns,
    top: HEAD_PX + 46,
    bottom: footPx(options) + 64,
  });
}

const footPx = ({ captions }: Pick<SheetOptions, "captions">): number => captions.length * LINE_PX + 24;

function border(viewport: Viewport, drawing: Drawing, { heading, captions }: SheetOptions): readonly Primitive[] {
  const { widthPx: w, heightPx: h } = viewport;
  const world = (x: number, y: number) => screenToWorld(viewport, [x, y]);
  const foot = footPx({ captions });
  const band = (x0: number, x1: number, y0: number, y1: number): Primitive => ({
    kind: "path",
    points: [world(x0, y0), world(x1, y0), world(x1, y1), world(x0, y1)],
    closed: true,
    style: { fill: "paper" },
  });
  const rule = (y: number): Primitive => ({
    kind: "path",
    points: [world(EDGE_PX, y), world(w - EDGE_PX, y)],
    closed: false,
    style: { stroke: "ink", widthPx: 0.8 },
  });
  return [
    band(0, w, 0, HEAD_PX),
    band(0, w, h - foot, h),
    band(0, EDGE_PX, 0, h),
    band(w - EDGE_PX, w, 0, h),
    {
      kind: "path",
      points: [
        world(EDGE_PX, EDGE_PX),
        world(w - EDGE_PX, EDGE_PX),
        world(w - EDGE_PX, h - EDGE_PX),
        world(EDGE_PX, h - EDGE_PX),
      ],
      closed: true,
      style: { stroke: "ink", widthPx: 1.4 },
    },
    rule(HEAD_PX),
    rule(h - foot),
    {
      kind: "text",
      at: world(EDGE_PX + 12, HEAD_PX),
      text: drawing.title,
      align: "start",
      offsetPx: [0, -12],
      sizePx: 15,
      tone: "ink",
      weight: "strong",
      caps: true,
    },
    {
      kind: "text",
      at: world(w - EDGE_PX - 12, HEAD_PX),
      text: heading,
      align: "end",
      offsetPx: [0, -12],
      sizePx: 14,
      tone: "ink",
    },
    ...captions.map(
      (text, i): Primitive => ({
        kind: "text",
        at: world(EDGE_PX + 12, h - foot + 8),
        text,
        align: "start",
        offsetPx: [0, LINE_PX * (i + 0.75)],
        sizePx: 11,
        tone: "ink",
      }),
    ),
  ];
}
