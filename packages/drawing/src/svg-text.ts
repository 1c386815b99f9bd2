import type { SvgNode } from "./to-svg.ts";

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Characters XML 1.0 has no way to write (W3C, XML 1.0, production 2). */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

const escaped = (text: string): string => text.replace(FORBIDDEN, "\ufffd").replace(/[&<>"]/g, (c) => ENTITIES[c] ?? c);

/** An SVG tree as text: a complete file when the tree is a whole sheet. */
export function svgText(node: SvgNode): string {
  const attrs = Object.entries(node.attrs).map(([name, value]) => ` ${name}="${escaped(String(value))}"`).join("");
  const inner = (node.text === undefined ? "" : escaped(node.text)) + node.children.map(svgText).join("");
  return inner === "" ? `<${node.tag}${attrs}/>` : `<${node.tag}${attrs}>${inner}</${node.tag}>${node.tag === "text" ? "" : "\n"}`;
}
