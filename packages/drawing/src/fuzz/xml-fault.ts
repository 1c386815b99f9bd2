/** What is wrong with the nesting of an XML text, by W3C XML 1.0 (productions 39 to 44): null for nothing. */
export function xmlFault(xml: string): string | null {
  const open: string[] = [];
  const token =
    /<(\/?)([a-z]+)((?:\s+[A-Za-z:-]+="[^"<&]*(?:&(?:amp|lt|gt|quot);[^"<&]*)*")*)\s*(\/?)>|[^<&]+|&(?:amp|lt|gt|quot);/gy;
  let at = 0;
  while (at < xml.length) {
    token.lastIndex = at;
    const found = token.exec(xml);
    if (!found) return `unreadable at ${xml.slice(at, at + 60)}`;
    at = token.lastIndex;
    const [, closing, tag, attributes, empty] = found;
    if (!tag) continue;
    const names = [...(attributes ?? "").matchAll(/([A-Za-z:-]+)="/g)].map((m) => m[1]);
    if (new Set(names).size !== names.length) return `an attribute twice in <${tag}>`;
    if (closing) {
      if (open.pop() !== tag) return `</${tag}> closes nothing`;
    } else if (!empty) open.push(tag);
  }
  return open.length === 0 ? null : `<${open.join("><")}> left open`;
}
