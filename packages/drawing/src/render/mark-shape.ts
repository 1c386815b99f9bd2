import type { MarkShape, Style } from "../primitives.ts";
import type { ScreenPoint } from "../viewport.ts";
import type { SheetMark } from "./sheet-mark.ts";

type Outline = { readonly parts: readonly (readonly ScreenPoint[])[]; readonly closed: boolean };

/** In a square from −1 to 1, right and down. */
const SHAPES: Readonly<Record<Exclude<MarkShape, "ring">, Outline>> = {
  triangleUp: {
    parts: [
      [
        [0, -1],
        [1, 0.8],
        [-1, 0.8],
      ],
    ],
    closed: true,
  },
  triangleDown: {
    parts: [
      [
        [0, 1],
        [1, -0.8],
        [-1, -0.8],
      ],
    ],
    closed: true,
  },
  diamond: {
    parts: [
      [
        [0, -1.1],
        [1.1, 0],
        [0, 1.1],
        [-1.1, 0],
      ],
    ],
    closed: true,
  },
  square: {
    parts: [
      [
        [-0.85, -0.85],
        [0.85, -0.85],
        [0.85, 0.85],
        [-0.85, 0.85],
      ],
    ],
    closed: true,
  },
  cross: {
    parts: [
      [
        [-0.8, -0.8],
        [0.8, 0.8],
      ],
      [
        [-0.8, 0.8],
        [0.8, -0.8],
      ],
    ],
    closed: false,
  },
  tick: {
    parts: [
      [
        [-0.9, 0.1],
        [-0.25, 0.75],
        [0.95, -0.8],
      ],
    ],
    closed: false,
  },
  question: {
    parts: [
      [
        [-0.6, -0.5],
        [-0.35, -0.95],
        [0.35, -0.95],
        [0.6, -0.5],
        [0.45, -0.1],
        [0, 0.15],
        [0, 0.5],
      ],
      [
        [0, 0.85],
        [0, 1.02],
      ],
    ],
    closed: false,
  },
};

/** A plain sign of a given size about a place on the sheet. */
export function markShape(
  shape: MarkShape,
  [x, y]: ScreenPoint,
  sizePx: number,
  style: Style,
  title?: string,
): SheetMark {
  const r = sizePx / 2;
  const look = {
    ...(style.stroke ? { stroke: style.stroke, widthPx: style.widthPx ?? 1 } : {}),
    ...(style.fill ? { fill: style.fill, fillOpacity: style.fillOpacity ?? 1 } : {}),
    ...(title ? { title } : {}),
  };
  if (shape === "ring") return { kind: "circle", at: [x, y], radiusPx: r, ...look };
  const { parts, closed } = SHAPES[shape];
  return {
    kind: "path",
    parts: parts.map((part) => part.map(([px, py]): ScreenPoint => [x + px * r, y + py * r])),
    closed,
    ...look,
  };
}
