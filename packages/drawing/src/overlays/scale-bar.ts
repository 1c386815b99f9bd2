import { FOOT_M, type UnitSystem } from "@gantline/plan";
import type { Primitive, Viewport } from "../primitives.ts";
import { screenToWorld } from "../viewport.ts";

export interface ScaleBar {
  /** Whole length, m: 1, 2 or 5 times a power of ten in the reader's unit. */
  readonly lengthM: number;
  /** In the reader's unit. */
  readonly length: number;
  readonly unit: "m" | "ft";
  readonly parts: number;
}

const TARGET_PX = 150;

/** The longest round length that is not more than about 150 px on this sheet. */
export function scaleBarLength(viewport: Viewport, system: UnitSystem): ScaleBar {
  const unitM = system === "metric" ? 1 : FOOT_M;
  const most = TARGET_PX / viewport.pxPerM / unitM;
  const decade = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((s) => s * decade <= most * (1 + 1e-9)) ?? 1;
  const length = step * decade;
  return { lengthM: length * unitM, length, unit: system === "metric" ? "m" : "ft", parts: step === 2 ? 4 : 5 };
}

const HIGH_PX = 6;

/** A divided bar at the lower left of the sheet, true at any scale. */
export function scaleBar(viewport: Viewport, system: UnitSystem, leftPx = 24, bottomPx = 26): readonly Primitive[] {
  const bar = scaleBarLength(viewport, system);
  const world = (x: number, y: number) => screenToWorld(viewport, [x, y]);
  const y = viewport.heightPx - bottomPx;
  const px = bar.lengthM * viewport.pxPerM;
  const part = px / bar.parts;
  const boxes = Array.from({ length: bar.parts }, (_, i): Primitive => {
    const [x0, x1] = [leftPx + i * part, leftPx + (i + 1) * part];
    return {
      kind: "path",
      points: [world(x0, y), world(x1, y), world(x1, y - HIGH_PX), world(x0, y - HIGH_PX)],
      closed: true,
      style: { stroke: "ink", fill: i % 2 ? "paper" : "ink", widthPx: 1 },
    };
  });
  const figure = (fraction: number, unit: string): Primitive => ({
    kind: "text",
    at: world(leftPx + fraction * px, y - HIGH_PX),
    text: `${Number((bar.length * fraction).toPrecision(6))}${unit}`,
    align: "middle",
    offsetPx: [0, -5],
    sizePx: 11,
    tone: "ink",
    halo: true,
  });
  const field = [
    [leftPx - 12, y + 8],
    [leftPx + px + 22, y + 8],
    [leftPx + px + 22, y - HIGH_PX - 18],
    [leftPx - 12, y - HIGH_PX - 18],
  ] as const;
  return [
    {
      kind: "path",
      points: field.map(([x, down]) => world(x, down)),
      closed: true,
      style: { fill: "paper", fillOpacity: 0.88 },
    },
    ...boxes,
    figure(0, ""),
    figure(1, `\u202f${bar.unit}`),
  ];
}
