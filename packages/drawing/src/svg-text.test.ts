import { describe, expect, it } from "vitest";
import { svgText } from "./svg-text.ts";

describe("svgText", () => {
  it("writes marks of XML as entities, in texts and attributes", () => {
    expect(svgText({ tag: "text", attrs: { x: 1, id: 'a"b' }, children: [], text: "1 < 2 & 3 > 2" })).toBe(
      '<text x="1" id="a&quot;b">1 &lt; 2 &amp; 3 &gt; 2</text>',
    );
  });

  // W3C, XML 1.0 (fifth edition), production 2: characters that no document may hold, even as entities.
  it("replaces characters XML cannot hold", () => {
    expect(svgText({ tag: "text", attrs: {}, children: [], text: "a\u0007b\ud800c😀" })).toBe(
      "<text>a\ufffdb\ufffdc😀</text>",
    );
  });

  it("closes an element that holds nothing", () => {
    expect(svgText({ tag: "path", attrs: { d: "M0 0" }, children: [] })).toBe('<path d="M0 0"/>');
  });
});
