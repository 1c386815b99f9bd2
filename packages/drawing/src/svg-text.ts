import type { SvgNode } from "./render/svg-node.ts";

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Everything but the characters an XML document may hold (W3C, XML 1.0, fifth edition, production 2). */
const FORBIDDEN = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;

const escaped = (text: string): string => text.replace(FORBIDDEN, "\ufffd").replace(/[&<>"]/g, (c) => ENTITIES[c] ?? c);

/** An SVG tree as text: a complete file when the tree is a whole sheet. */
export function svgText(node: SvgNode): string {
  const attrs = Object.entries(node.attrs)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join("");
  const inner = (node.text === undefined ? "" : escaped(node.text)) + node.children.map(svgText).join("");
  return inner === ""
    ? `<${node.tag}${attrs}/>`
    : `<${node.tag}${attrs}>${inner}</${node.tag}>${node.tag === "text" ? "" : "\n"}`;
}
