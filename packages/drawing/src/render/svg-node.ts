/** One element of an SVG, for whoever makes it real: a string for paper, page elements for the screen. */
export interface SvgNode {
  readonly tag: "svg" | "g" | "path" | "circle" | "text" | "rect" | "title" | "desc";
  readonly attrs: Readonly<Record<string, string | number>>;
  readonly children: readonly SvgNode[];
  readonly text?: string;
  /** The same from one drawing to the next of the same things, so that what did not change can be left as it is. */
  readonly key?: string;
}
