import type { SvgNode } from "@gantline/drawing";
import { createElement, type ReactElement } from "react";

const RENAMED: Readonly<Record<string, string>> = {
  "font-family": "fontFamily",
  "font-size": "fontSize",
  "font-weight": "fontWeight",
  "font-style": "fontStyle",
  "text-anchor": "textAnchor",
  "letter-spacing": "letterSpacing",
  "paint-order": "paintOrder",
  "fill-opacity": "fillOpacity",
  "stroke-width": "strokeWidth",
  "stroke-dasharray": "strokeDasharray",
  "stroke-linecap": "strokeLinecap",
  "stroke-linejoin": "strokeLinejoin",
};

/** A drawing's SVG tree as page elements. Children are known by their keys, so only what changed is touched. */
export function svgElement(node: SvgNode, key?: number | string): ReactElement {
  const props: Record<string, unknown> = key === undefined ? {} : { key };
  for (const [name, value] of Object.entries(node.attrs)) props[RENAMED[name] ?? name] = value;
  const children = node.children.map((child, index) => svgElement(child, child.key ?? index));
  return node.text === undefined
    ? createElement(node.tag, props, children.length > 0 ? children : undefined)
    : createElement(node.tag, props, node.text);
}
