import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrapText } from "./wrap-text.ts";

/** Every letter one wide. */
const width = (t: string): number => t.length;

describe("wrapText", () => {
  it("breaks between words, and cuts what has no room", () => {
    expect(wrapText("up beside the wall", 9, 3, width)).toEqual(["up beside", "the wall"]);
    expect(wrapText("up beside the wall", 9, 1, width)).toEqual(["up besid…"]);
    expect(wrapText("extraordinarily", 6, 2, width)).toEqual(["extra…"]);
    expect(wrapText("", 6, 2, width)).toEqual([""]);
  });

  it("keeps every line to its width and number, and every word where nothing is cut", () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ minLength: 1, maxLength: 12, unit: fc.constantFrom("a", "b", "c") }), { maxLength: 12 }),
        fc.integer({ min: 3, max: 40 }),
        fc.integer({ min: 1, max: 4 }),
        (words, most, lines) => {
          const text = words.join(" ");
          const wrapped = wrapText(text, most, lines, width);
          expect(wrapped.length).toBeLessThanOrEqual(lines);
          for (const line of wrapped) expect(line.length).toBeLessThanOrEqual(most);
          if (!wrapped.some((l) => l.endsWith("…"))) expect(wrapped.join(" ")).toBe(text);
        },
      ),
      { seed: 20261125, numRuns: 500 },
    );
  });
});
