import type { Tone } from "../primitives.ts";
import { boundsOf } from "../shared/bounds.ts";
import type { ScreenPoint } from "../viewport.ts";
import type { Occupancy } from "./occupancy.ts";
import type { SheetMark } from "./sheet-mark.ts";

/** Fills at least this dense are kept clear of texts. */
const DENSE_FILL = 0.12;
const FILL_STEP_PX = 6;
const GRIP_PX = 12;

/** Tells the occupancy where a mark puts ink, heavier lines with more weight, so that texts keep off it. */
export function noteInk(mark: SheetMark, occupancy: Occupancy): void {
  if (mark.kind === "text") return;
  if (
    mark.kind === "path" &&
    mark.closed &&
    mark.fill &&
    mark.fill !== "paper" &&
    (mark.fillOpacity ?? 1) >= DENSE_FILL
  )
    noteFill(mark.parts[0] ?? [], occupancy);
  const weight = inkWeight(mark.stroke, mark.widthPx ?? 1);
  if (weight === 0) return;
  if (mark.kind === "circle") {
    const {
      at: [x, y],
      radiusPx: r,
    } = mark;
    for (let i = 0; i < 8; i++) {
      const [a, b] = [(i * Math.PI) / 4, ((i + 1) * Math.PI) / 4];
      occupancy.addLine([x + r * Math.cos(a), y + r * Math.sin(a)], [x + r * Math.cos(b), y + r * Math.sin(b)], weight);
    }
  } else {
    for (const part of mark.parts) {
      for (let i = 0; i + 1 < part.length; i++)
        occupancy.addLine(part[i] as ScreenPoint, part[i + 1] as ScreenPoint, weight);
      if (mark.closed && part.length > 2)
        occupancy.addLine(part[part.length - 1] as ScreenPoint, part[0] as ScreenPoint, weight);
    }
  }
}

/** Keeps texts off a ring that is laid over the drawing to take hold of. */
export function noteGrip([x, y]: ScreenPoint, occupancy: Occupancy): void {
  for (let down = -GRIP_PX; down <= GRIP_PX; down += FILL_STEP_PX)
    occupancy.addLine([x - GRIP_PX, y + down], [x + GRIP_PX, y + down], 4);
}

/** The upright box round a dense fill, row by row. */
function noteFill(points: readonly ScreenPoint[], occupancy: Occupancy): void {
  if (points.length === 0) return;
  const { minX: x0, minY: y0, maxX: x1, maxY: y1 } = boundsOf(points);
  for (let y = y0; y <= y1 && y - y0 < 100 * FILL_STEP_PX; y += FILL_STEP_PX) occupancy.addLine([x0, y], [x1, y], 3);
}

const inkWeight = (tone: Tone | undefined, widthPx: number): number =>
  tone === undefined || tone === "grid" || tone === "paper" ? 0 : widthPx < 0.7 ? 1 : widthPx < 1.6 ? 2 : 3;
