import type { SvgNode } from "@gantline/drawing";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { patchSvg } from "./patch-svg.ts";

/** As much of an SVG element as is asked of it, and how often it was touched. */
class PageElement {
  readonly attrs = new Map<string, string>();
  readonly childNodes: PageElement[] = [];
  parent: PageElement | null = null;
  words = "";
  static touched = 0;
  readonly ownerDocument = { createElementNS: (_: string, tag: string) => new PageElement(tag) };
  readonly tag: string;

  constructor(tag: string) {
    this.tag = tag;
  }
  get firstChild(): PageElement | null {
    return this.childNodes[0] ?? null;
  }
  get nextSibling(): PageElement | null {
    return this.parent?.childNodes[this.parent.childNodes.indexOf(this) + 1] ?? null;
  }
  set textContent(words: string) {
    PageElement.touched++;
    for (const child of this.childNodes) child.parent = null;
    this.childNodes.length = 0;
    this.words = words;
  }
  setAttribute(name: string, value: string) {
    PageElement.touched++;
    this.attrs.set(name, value);
  }
  removeAttribute(name: string) {
    PageElement.touched++;
    this.attrs.delete(name);
  }
  remove() {
    PageElement.touched++;
    this.parent?.childNodes.splice(this.parent.childNodes.indexOf(this), 1);
    this.parent = null;
  }
  insertBefore(child: PageElement, next: PageElement | null) {
    if (next !== null && next.parent !== this) throw new Error("not a child of this");
    child.remove();
    child.parent = this;
    this.childNodes.splice(next === null ? this.childNodes.length : this.childNodes.indexOf(next), 0, child);
  }
}

const told = (e: PageElement): unknown => ({
  tag: e.tag,
  attrs: Object.fromEntries([...e.attrs].sort()),
  text: e.words,
  children: e.childNodes.map(told),
});
const asked = (n: SvgNode): unknown => ({
  tag: n.tag,
  attrs: Object.fromEntries(
    Object.entries(n.attrs)
      .map(([name, value]) => [name, String(value)] as const)
      .sort(),
  ),
  text: n.text ?? "",
  children: n.children.map(asked),
});
const show = (element: PageElement, was: SvgNode | null, now: SvgNode) =>
  patchSvg(element as unknown as SVGElement, was, now);

const attrs = fc.dictionary(fc.constantFrom("d", "x", "fill"), fc.oneof(fc.integer(), fc.constantFrom("a", "b")));
const leaf: fc.Arbitrary<SvgNode> = fc.oneof(
  fc.record({ tag: fc.constantFrom("path", "circle"), attrs, children: fc.constant([]) }),
  fc.record({ tag: fc.constant("text"), attrs, children: fc.constant([]), text: fc.string() }),
) as fc.Arbitrary<SvgNode>;
/** Some children with keys, all of them different, and some without. */
const tree: fc.Arbitrary<SvgNode> = fc
  .record({
    attrs,
    keyed: fc.uniqueArray(fc.constantFrom(..."abcdefgh"), { maxLength: 8 }),
    leaves: fc.array(leaf, { minLength: 8, maxLength: 8 }),
    plain: fc.array(leaf, { maxLength: 3 }),
  })
  .map(({ attrs, keyed, leaves, plain }) => ({
    tag: "g" as const,
    attrs,
    children: [...plain, ...keyed.map((key, i) => ({ ...(leaves[i] as SvgNode), key }))],
  }));

describe("a page element that shows one drawing after another", () => {
  it("shows each as if it had been made for it alone", () => {
    fc.assert(
      fc.property(fc.array(tree, { minLength: 1, maxLength: 5 }), (trees) => {
        const element = new PageElement("g");
        let was: SvgNode | null = null;
        for (const now of trees) {
          show(element, was, now);
          expect(told(element)).toEqual(asked(now));
          was = now;
        }
      }),
    );
  });

  it("leaves alone what did not change", () => {
    const leafOf = (key: string, x: number): SvgNode => ({ tag: "path", attrs: { d: "M0 0", x }, children: [], key });
    const of = (children: readonly SvgNode[]): SvgNode => ({ tag: "g", attrs: { fill: "none" }, children });
    const first = of([leafOf("a", 1), leafOf("b", 2), leafOf("c", 3)]);
    const element = new PageElement("g");
    show(element, null, first);
    const [a, b, c] = element.childNodes;

    PageElement.touched = 0;
    show(element, first, structuredClone(first));
    expect(PageElement.touched).toBe(0);

    const second = of([leafOf("a", 1), leafOf("c", 4)]);
    show(element, first, second);
    expect(PageElement.touched).toBe(2); // b goes, c moves
    expect(element.childNodes).toEqual([a, c]);
    expect(b?.parent).toBeNull();
  });
});
