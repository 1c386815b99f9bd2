import { describe, expect, it } from "vitest";
import type { Primitive, Viewport } from "../primitives.ts";
import { layoutDrawing, wordsForScale } from "./layout-drawing.ts";
import type { SheetMark } from "./sheet-mark.ts";
import { textWidthPx } from "./text-width.ts";

const viewport: Viewport = { widthPx: 400, heightPx: 400, centre: [20, 20], pxPerM: 10 };
const word = (text: string, at: readonly [number, number], more: object = {}): Primitive => ({
  kind: "text",
  at,
  text,
  align: "start",
  offsetPx: [6, 4],
  sizePx: 12,
  tone: "ink",
  label: { priority: 50, keep: true },
  ...more,
});
const placeOf = (marks: readonly SheetMark[], text: string) => {
  const found = marks.find((mark) => mark.kind === "text" && mark.text === text);
  if (found?.kind !== "text") throw new Error(`${text} is not on the sheet.`);
  return found;
};

describe("texts on a sheet", () => {
  const grip = [21, 20] as const;

  it("stand in their wanted place where nothing is in the way", () => {
    const { at } = placeOf(layoutDrawing([word("Load", [20, 20])], viewport), "Load");
    expect(at[0]).toBeCloseTo(206, 6);
  });

  it("keep off what is laid over the drawing to take hold of", () => {
    const { at, align } = placeOf(layoutDrawing([word("Load", [20, 20])], viewport, { grips: [grip] }), "Load");
    const wide = textWidthPx("Load", 12, false, false);
    const left = at[0] - (align === "start" ? 0 : align === "end" ? wide : wide / 2);
    const aside = Math.max(210 - left - wide, left - 210);
    const above = Math.max(200 - at[1], at[1] - 9 - 200);
    expect(Math.max(aside, above)).toBeGreaterThanOrEqual(10);
  });

  it("give way to one set along a line, which can only slide", () => {
    const turned = { rotateRad: Math.PI / 2, align: "middle", offsetPx: [0, 0] };
    const marks = layoutDrawing([word("Yoke 10 m", [20, 20]), word("Tip 25 m", [22, 20], turned)], viewport);
    expect(placeOf(marks, "Tip 25 m").at).toEqual([220, 200]);
    expect(placeOf(marks, "Yoke 10 m").at[0]).not.toBeCloseTo(206, 6);
  });
});

it("carries fewer words the smaller the scale, and the narrower the sheet", () => {
  const words = (pxPerM: number, widthPx: number) => wordsForScale({ pxPerM, widthPx });
  expect(words(20, 680)).toBe(0);
  expect(words(20, 390)).toBe(0);
  expect(words(3, 680)).toBe(81);
  // The scale of the site's plan on a phone, and the same on a tablet.
  expect(words(9.5, 390)).toBeGreaterThan(words(9.5, 680));
});
