import type { ScreenPoint } from "../viewport.ts";
import { clipSegment } from "./clip-segment.ts";

/** A turned rectangle on the sheet: middle, half sizes, and the direction of its long side. One box is moved from place to place while a place is looked for. */
export interface Box {
  cx: number;
  cy: number;
  readonly halfW: number;
  readonly halfH: number;
  /** Unit vector along the text. */
  readonly ux: number;
  readonly uy: number;
}

const CELL_PX = 6;
/** Which cell a place lies in, and so many on; within those there are. */
const cellOf = (px: number, on: number, count: number): number =>
  Math.max(0, Math.min(count, Math.floor(px / CELL_PX) + on));
/** Texts keep this far from the sheet's edge. */
const EDGE_PX = 3;

/** Where there is ink already: a coarse raster of the sheet, and the boxes of the texts placed so far. */
export class Occupancy {
  private readonly columns: number;
  private readonly rows: number;
  private readonly ink: Uint8Array;
  /** Ink summed from the upper left corner, so that an upright box is four look-ups; made when first asked for. */
  private sums: Int32Array | null = null;
  private readonly boxes: Box[] = [];
  private readonly widthPx: number;
  private readonly heightPx: number;
  private readonly topPx: number;
  private readonly bottomPx: number;

  /** `headPx` and `footPx` are taken up by other things: texts keep out of them. */
  constructor(widthPx: number, heightPx: number, headPx = 0, footPx = 0) {
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.topPx = headPx;
    this.bottomPx = heightPx - footPx;
    this.columns = Math.max(1, Math.ceil(widthPx / CELL_PX));
    this.rows = Math.max(1, Math.ceil(heightPx / CELL_PX));
    this.ink = new Uint8Array(this.columns * this.rows);
  }

  /** Note a line, heavier lines with more weight. */
  addLine(p: ScreenPoint, q: ScreenPoint, weight: number): void {
    if (this.holds(p) && this.holds(q)) this.addHeld(p, q, weight);
    else {
      const clipped = clipSegment(p, q, 0, 0, this.widthPx, this.heightPx);
      if (clipped) this.addHeld(clipped[0], clipped[1], weight);
    }
  }

  private holds(p: ScreenPoint): boolean {
    return p[0] >= 0 && p[1] >= 0 && p[0] <= this.widthPx && p[1] <= this.heightPx;
  }

  private addHeld(p: ScreenPoint, q: ScreenPoint, weight: number): void {
    const dx = q[0] - p[0];
    const dy = q[1] - p[1];
    const steps = Math.ceil(Math.max(Math.abs(dx), Math.abs(dy)) / CELL_PX);
    for (let i = 0; i <= steps; i++) {
      const t = steps === 0 ? 0 : i / steps;
      const c = Math.min(this.columns - 1, Math.floor((p[0] + dx * t) / CELL_PX));
      const r = Math.min(this.rows - 1, Math.floor((p[1] + dy * t) / CELL_PX));
      const k = r * this.columns + c;
      if ((this.ink[k] as number) < weight) this.ink[k] = weight;
    }
  }

  addBox(box: Box): void {
    this.boxes.push(box);
  }

  /** Does the box lie on a text already placed? */
  hitsText(box: Box): boolean {
    return this.boxes.some((other) => overlap(box, other));
  }

  /** Ink under the box, summed over the raster. Lines are to be noted before the first call. */
  inkUnder(box: Box): number {
    return box.uy === 0 ? this.inkUnderUpright(box) : this.inkUnderTurned(box);
  }

  private inkUnderUpright(box: Box): number {
    this.sums ??= this.summed();
    const sums = this.sums;
    const wide = this.columns + 1;
    const c0 = cellOf(box.cx - box.halfW, 0, this.columns);
    const c1 = cellOf(box.cx + box.halfW, 1, this.columns);
    const r0 = cellOf(box.cy - box.halfH, 0, this.rows) * wide;
    const r1 = cellOf(box.cy + box.halfH, 1, this.rows) * wide;
    return (
      (sums[r1 + c1] as number) - (sums[r0 + c1] as number) - (sums[r1 + c0] as number) + (sums[r0 + c0] as number)
    );
  }

  private summed(): Int32Array {
    const wide = this.columns + 1;
    const sums = new Int32Array(wide * (this.rows + 1));
    for (let r = 0; r < this.rows; r++) {
      let inRow = 0;
      for (let c = 0; c < this.columns; c++) {
        inRow += this.ink[r * this.columns + c] as number;
        sums[(r + 1) * wide + c + 1] = (sums[r * wide + c + 1] as number) + inRow;
      }
    }
    return sums;
  }

  private inkUnderTurned(box: Box): number {
    const nx = Math.max(1, Math.ceil((2 * box.halfW) / CELL_PX));
    const ny = Math.max(1, Math.ceil((2 * box.halfH) / CELL_PX));
    let sum = 0;
    for (let i = 0; i <= nx; i++) {
      const a = ((2 * i) / nx - 1) * box.halfW;
      for (let j = 0; j <= ny; j++) {
        const b = ((2 * j) / ny - 1) * box.halfH;
        const c = Math.floor((box.cx + a * box.ux - b * box.uy) / CELL_PX);
        const r = Math.floor((box.cy + a * box.uy + b * box.ux) / CELL_PX);
        if (c >= 0 && r >= 0 && c < this.columns && r < this.rows) sum += this.ink[r * this.columns + c] as number;
      }
    }
    return sum;
  }

  /** How far the box reaches over the edge of the sheet, px. */
  overEdge(box: Box): number {
    return Math.abs(this.intoSheetAcross(box)) + Math.abs(this.intoSheetDown(box));
  }

  /** The way across that brings the box into the sheet, px; a box wider than the sheet begins at its left edge. */
  intoSheetAcross(box: Box): number {
    const w = extentX(box) + EDGE_PX;
    return wayInto(w, this.widthPx - w, box.cx);
  }

  /** The same way down. */
  intoSheetDown(box: Box): number {
    const h = extentY(box) + EDGE_PX;
    return wayInto(this.topPx + h, this.bottomPx - h, box.cy);
  }
}

const wayInto = (least: number, most: number, at: number): number =>
  at < least ? least - at : at > most ? Math.max(least, most) - at : 0;

/** Half the upright extent of a turned box, across and down. */
const extentX = (b: Box): number => Math.abs(b.ux) * b.halfW + Math.abs(b.uy) * b.halfH;
const extentY = (b: Box): number => Math.abs(b.uy) * b.halfW + Math.abs(b.ux) * b.halfH;

/** Do two turned rectangles overlap? Their upright extents first, then the separating axis theorem for turned ones. */
function overlap(a: Box, b: Box): boolean {
  const dx = b.cx - a.cx;
  const dy = b.cy - a.cy;
  if (Math.abs(dx) >= extentX(a) + extentX(b) || Math.abs(dy) >= extentY(a) + extentY(b)) return false;
  if (a.uy === 0 && b.uy === 0) return true;
  return !(
    apart(a, b, dx, dy, a.ux, a.uy) ||
    apart(a, b, dx, dy, -a.uy, a.ux) ||
    apart(a, b, dx, dy, b.ux, b.uy) ||
    apart(a, b, dx, dy, -b.uy, b.ux)
  );
}

/** Does the axis (x, y) separate the two? */
function apart(a: Box, b: Box, dx: number, dy: number, x: number, y: number): boolean {
  return Math.abs(dx * x + dy * y) >= spread(a, x, y) + spread(b, x, y);
}
const spread = (c: Box, x: number, y: number): number =>
  c.halfW * Math.abs(c.ux * x + c.uy * y) + c.halfH * Math.abs(c.ux * y - c.uy * x);
