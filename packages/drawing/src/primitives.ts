/**
 * What a drawing is made of, in plain world metres: [across, up] for a section, [east, north] for a plan.
 * A renderer turns these into SVG for the screen or paper; nothing here knows the plan or the engine.
 */

export type WorldPoint = readonly [number, number];

/** Ink by meaning. A theme gives each its colour; meaning is never told by colour alone. */
export type Tone =
  | "ink"
  | "faint"
  | "grid"
  | "paper"
  | "earth"
  | "structure"
  | "water"
  | "hazard"
  | "ladder"
  | "vehicle"
  | "load"
  | "mainA"
  | "mainB"
  | "tagline"
  | "tether"
  | "force"
  | "accent"
  | "within"
  | "close"
  | "over"
  | "unknown";

/**
 * Hatches are drawn line by line at a spacing fixed on the sheet.
 * `roof` and `roofOther` lean to either side, so that roofs side by side are told apart.
 * `earth` on an open path hangs under the line; `gap` ticks point inward from the outline; the others fill it.
 * From `level` on they are for maps; `tint1` to `tint6` are ever closer lines.
 */
export type Hatch =
  | "earth"
  | "cut"
  | "roof"
  | "roofOther"
  | "water"
  | "gap"
  | "keepOut"
  | "parking"
  | "level"
  | "upright"
  | "leanRight"
  | "leanLeft"
  | "chequer"
  | "levelDashes"
  | "uprightDashes"
  | "leanDashes"
  | "dashesBothWays"
  | "dots"
  | "tint1"
  | "tint2"
  | "tint3"
  | "tint4"
  | "tint5"
  | "tint6";

export interface Style {
  readonly stroke?: Tone;
  readonly fill?: Tone;
  /** Of the fill, 0 to 1. */
  readonly fillOpacity?: number;
  readonly hatch?: Hatch;
  /** Left out: the stroke's. */
  readonly hatchTone?: Tone;
  /** Line weight, screen pixels (paper: 1 px = 0.26 mm). */
  readonly widthPx?: number;
  readonly dash?: Dash;
}

export type Dash = "dashed" | "dotted" | "chain";

/** How a text may be moved so that texts do not lie on each other. Left out: it stays where it is. */
export interface Label {
  /** Higher is placed first, and so nearer to its thing. */
  readonly priority: number;
  /** Never left off, however crowded the sheet is. */
  readonly keep?: boolean;
  /** A turned text may slide this far along its own direction, px on the sheet. Left out: as far as it needs. */
  readonly slidePx?: number;
  /** The text belongs to this line: where its own place is out of view, it goes to the middle of what is in view of the line. */
  readonly along?: readonly [WorldPoint, WorldPoint];
  /** The text names what fills this box: it goes somewhere in the part of it that is in view. */
  readonly area?: Bounds;
}

/** Small signs of one size on the sheet: plain shapes. */
export type MarkShape = "triangleUp" | "triangleDown" | "diamond" | "square" | "ring" | "cross" | "tick" | "question";

export type Primitive =
  | {
      readonly kind: "path";
      readonly points: readonly WorldPoint[];
      readonly closed: boolean;
      readonly style: Style;
      readonly title?: string;
      /** Drawn this far to the left of its own direction on the sheet, so that two ropes on one line can be told apart. */
      readonly shiftPx?: number;
    }
  | {
      /** Many paths in one; filled, where they overlap they are one area. Closed parts turn anticlockwise, holes in them clockwise. */
      readonly kind: "paths";
      readonly parts: readonly (readonly WorldPoint[])[];
      readonly closed: boolean;
      readonly style: Style;
      readonly title?: string;
    }
  | {
      /** Many short lines in one: rungs, ticks, rails. */
      readonly kind: "strokes";
      readonly lines: readonly (readonly [WorldPoint, WorldPoint])[];
      readonly style: Style;
      /** Left off below this scale, where they would run together. */
      readonly fromPxPerM?: number;
      readonly title?: string;
    }
  | {
      readonly kind: "circle";
      readonly at: WorldPoint;
      readonly radiusM?: number;
      readonly radiusPx?: number;
      readonly style: Style;
      readonly title?: string;
    }
  | {
      readonly kind: "mark";
      readonly at: WorldPoint;
      readonly shape: MarkShape;
      readonly sizePx: number;
      readonly style: Style;
      readonly offsetPx?: readonly [number, number];
      readonly title?: string;
    }
  | {
      readonly kind: "text";
      readonly at: WorldPoint;
      readonly text: string;
      readonly align: "start" | "middle" | "end";
      /** Right and down on the sheet. */
      readonly offsetPx?: readonly [number, number];
      readonly sizePx: number;
      readonly tone: Tone;
      readonly weight?: "regular" | "strong";
      readonly italic?: boolean;
      /** Turned anticlockwise. */
      readonly rotateRad?: number;
      /** Paper-coloured outline so that it reads over lines. */
      readonly halo?: boolean;
      /** Letter-spaced capitals, for titles and names of places. */
      readonly caps?: boolean;
      readonly label?: Label;
      /** A small sign before the text, of the text's tone. */
      readonly sign?: MarkShape;
    }
  | {
      readonly kind: "arrow";
      readonly from: WorldPoint;
      readonly to: WorldPoint;
      readonly tone: Tone;
      readonly widthPx: number;
      readonly title?: string;
      readonly dash?: Dash;
    }
  | {
      readonly kind: "dimension";
      readonly a: WorldPoint;
      readonly b: WorldPoint;
      /** To the left of a→b on the sheet, negative to the right. */
      readonly offsetPx: number;
      readonly text: string;
      readonly tone: Tone;
      readonly title?: string;
      readonly priority?: number;
      readonly sign?: MarkShape;
    };

/** A thing a hand or a key can move. */
export interface Handle {
  /** `tip`, `vehicle`, `heading`, `load`, `tagline:` and its id; on the way `start`, or `waypoint:<stage>:<point>`. */
  readonly id: string;
  readonly at: WorldPoint;
  /** For a screen reader: "Ladder tip". */
  readonly label: string;
  /** Where it is now, in words and the reader's units: "70.0°, 26.20 m". */
  readonly valueText: string;
}

export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** One line of the key: how a rope or a force is drawn, and what it is. */
export interface KeyEntry {
  readonly style: Style;
  readonly text: string;
  readonly arrow?: boolean;
  /** What fills an area, not a line. */
  readonly area?: boolean;
  /** Two such lines this far apart, px. */
  readonly pairPx?: number;
}

export interface Drawing {
  readonly id: "section" | "plan";
  readonly title: string;
  readonly bounds: Bounds;
  /** Back to front. */
  readonly primitives: readonly Primitive[];
  readonly handles: readonly Handle[];
  /** One sentence for those who cannot see it. */
  readonly description: string;
  /** N per metre of arrow drawn. */
  readonly forceScaleNPerM: number;
  /** Which force case the arrows show, in words; null: no forces on this drawing. */
  readonly forceCaseText: string | null;
  readonly key: readonly KeyEntry[];
  /** Plan only: where the wind blows from, and the gust in words. */
  readonly wind: { readonly fromBearingRad: number; readonly text: string } | null;
}

/** Which part of the world is shown, and how large. */
export interface Viewport {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly centre: WorldPoint;
  readonly pxPerM: number;
}
