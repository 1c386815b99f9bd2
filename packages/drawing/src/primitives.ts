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
  | "force"
  | "accent"
  | "within"
  | "close"
  | "over"
  | "unknown";

export type Hatch = "earth" | "cut" | "water" | "gap" | "keepOut" | "parking";

export interface Style {
  readonly stroke?: Tone;
  readonly fill?: Tone;
  /** Of the fill, 0 to 1. */
  readonly fillOpacity?: number;
  readonly hatch?: Hatch;
  /** Line weight, screen pixels (paper: 1 px = 0.26 mm). */
  readonly widthPx?: number;
  readonly dash?: "dashed" | "dotted" | "chain";
}

export type Primitive =
  | { readonly kind: "path"; readonly points: readonly WorldPoint[]; readonly closed: boolean; readonly style: Style; readonly title?: string }
  | { readonly kind: "circle"; readonly at: WorldPoint; readonly radiusM?: number; readonly radiusPx?: number; readonly style: Style; readonly title?: string }
  | {
      readonly kind: "text";
      readonly at: WorldPoint;
      readonly text: string;
      readonly align: "start" | "middle" | "end";
      readonly offsetPx?: readonly [number, number];
      readonly sizePx: number;
      readonly tone: Tone;
      readonly weight?: "regular" | "strong";
      readonly italic?: boolean;
      readonly rotateRad?: number;
      /** Paper-coloured outline so that it reads over lines. */
      readonly halo?: boolean;
    }
  | { readonly kind: "arrow"; readonly from: WorldPoint; readonly to: WorldPoint; readonly tone: Tone; readonly widthPx: number; readonly title?: string }
  | { readonly kind: "dimension"; readonly a: WorldPoint; readonly b: WorldPoint; readonly offsetPx: number; readonly text: string; readonly tone: Tone };

/** A thing a hand or a key can move. */
export interface Handle {
  /** `tip`, `vehicle`, `heading`, `load`, or `tagline:` and its id. */
  readonly id: string;
  readonly at: WorldPoint;
  /** For a screen reader: "Ladder tip". */
  readonly label: string;
  /** Where it is now, in words and the reader's units: "70.0°, 26.20 m". */
  readonly valueText: string;
}

export interface Drawing {
  readonly id: "section" | "plan";
  readonly title: string;
  readonly bounds: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
  /** Back to front. */
  readonly primitives: readonly Primitive[];
  readonly handles: readonly Handle[];
  /** One sentence for those who cannot see it. */
  readonly description: string;
  /** N per metre of arrow drawn. */
  readonly forceScaleNPerM: number;
}

/** Which part of the world is shown, and how large. */
export interface Viewport {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly centre: WorldPoint;
  readonly pxPerM: number;
}
