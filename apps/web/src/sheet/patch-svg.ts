import type { SvgNode } from "@gantline/drawing";

const SVG = "http://www.w3.org/2000/svg";
const EMPTY: SvgNode = { tag: "g", attrs: {}, children: [] };

/**
 * Makes an element show another tree than it shows now, touching only what differs.
 * Children are known by their keys, those without one by their place.
 *
 * @param was what the element shows now; null: nothing yet
 */
export function patchSvg(element: SVGElement, was: SvgNode | null, now: SvgNode): void {
  const before = was ?? EMPTY;
  if (before === now) return;
  patchAttrs(element, before.attrs, now.attrs);
  if (before.text !== now.text) element.textContent = now.text ?? "";
  if (now.text === undefined) patchChildren(element, before.text === undefined ? before.children : [], now.children);
}

function patchAttrs(element: SVGElement, was: SvgNode["attrs"], now: SvgNode["attrs"]): void {
  for (const name in now) {
    const value = now[name] as string | number;
    if (was[name] !== value) element.setAttribute(name, String(value));
  }
  for (const name in was) if (!(name in now)) element.removeAttribute(name);
}

function patchChildren(parent: SVGElement, was: readonly SvgNode[], now: readonly SvgNode[]): void {
  if (was.length === now.length && was.every((child, place) => sameThing(child, now[place] as SvgNode))) {
    let element = parent.firstChild;
    for (let place = 0; place < now.length; place++) {
      const next = (element as SVGElement).nextSibling;
      patchSvg(element as SVGElement, was[place] as SvgNode, now[place] as SvgNode);
      element = next;
    }
    return;
  }
  const wanted = new Map(now.map((child, place) => [nameOf(child, place), child]));
  const kept = new Map<string, { readonly element: SVGElement; readonly shows: SvgNode }>();
  const elements = [...parent.childNodes] as SVGElement[];
  for (const [place, shows] of was.entries()) {
    const element = elements[place] as SVGElement;
    const name = nameOf(shows, place);
    if (wanted.get(name)?.tag === shows.tag) kept.set(name, { element, shows });
    else element.remove();
  }
  let next = parent.firstChild;
  for (const [place, child] of now.entries()) {
    const old = kept.get(nameOf(child, place));
    const element = old?.element ?? parent.ownerDocument.createElementNS(SVG, child.tag);
    patchSvg(element, old?.shows ?? null, child);
    if (element === next) next = next.nextSibling;
    else parent.insertBefore(element, next);
  }
}

const sameThing = (a: SvgNode, b: SvgNode): boolean => a.key === b.key && a.tag === b.tag;
const nameOf = ({ key }: SvgNode, place: number): string => key ?? `at ${place}`;
