import type { Primitive } from "../primitives.ts";
import { isAlike } from "../shared/is-alike.ts";
import type { SheetMark } from "./sheet-mark.ts";
import type { SvgNode } from "./svg-node.ts";
import type { TextPrimitive } from "./text-box.ts";

/** One primitive on the sheet: its marks, and the texts that are still to find a place. */
export interface Laid {
  readonly primitive: Primitive;
  readonly marks: readonly SheetMark[];
  readonly words: readonly TextPrimitive[];
}

/**
 * What a drawing that is drawn over and over came to the last time, so that what is the same in the next is not laid out
 * again: of a drawing in which something is dragged, most is. It changes nothing of what comes out.
 */
export class SheetMemory {
  private sheet: unknown = null;
  private laid: Laid[] = [];
  private nodes = new WeakMap<SheetMark, SvgNode>();

  /** To be called first, with all that the same things depend on to come out the same; where it differs, all is forgotten. */
  begin(sheet: unknown): void {
    if (isAlike(sheet, this.sheet)) return;
    this.sheet = sheet;
    this.laid = [];
    this.nodes = new WeakMap();
  }

  /** The primitive at a place of the drawing, laid out before or now. */
  laidOut(place: number, primitive: Primitive, lay: (primitive: Primitive, place: number) => Laid): Laid {
    const before = this.laid[place];
    if (before && isAlike(before.primitive, primitive)) return before;
    const now = lay(primitive, place);
    this.laid[place] = now;
    return now;
  }

  /** The mark as an element, made before or now. */
  node(mark: SheetMark, make: (mark: SheetMark) => SvgNode): SvgNode {
    const before = this.nodes.get(mark);
    if (before) return before;
    const now = make(mark);
    this.nodes.set(mark, now);
    return now;
  }
}
