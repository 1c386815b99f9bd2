import axe from "axe-core";
import { describe, expect, it } from "vitest";
import { contrastRatio } from "./contrast.ts";
import type { Tone } from "./primitives.ts";
import { BACKGROUND_TONES, THEMES } from "./theme.ts";

/** The colour part of axe-core, which its types leave out. */
interface AxeColor {
  Color: new (red: number, green: number, blue: number, alpha: number) => unknown;
  getContrast(background: unknown, foreground: unknown): number;
}
const { Color, getContrast } = (axe as unknown as { commons: { color: AxeColor } }).commons.color;
const byAxe = (a: string, b: string): number => {
  const channels = (hex: string): [number, number, number] =>
    [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as [number, number, number];
  return getContrast(new Color(...channels(a), 1), new Color(...channels(b), 1));
};

describe("themes", () => {
  // WCAG 2.2, success criterion 1.4.6 (enhanced): 7:1 for text.
  it.each(Object.entries(THEMES))("set text at 7:1 or better on the %s paper", (_, theme) => {
    const tones = (Object.keys(theme) as Tone[]).filter((tone) => !BACKGROUND_TONES.includes(tone));
    const faint = tones.filter((tone) => contrastRatio(theme[tone], theme.paper) < 7);
    expect(faint).toEqual([]);
  });

  it("keep the grid in the background and paper plain", () => {
    for (const theme of Object.values(THEMES)) expect(contrastRatio(theme.grid, theme.paper)).toBeLessThan(1.5);
  });
});

describe("contrastRatio", () => {
  it("is 21 for black on white and 1 for a colour on itself (WCAG 2.2, definition of contrast ratio)", () => {
    expect(contrastRatio("#000000", "#ffffff")).toBeCloseTo(21, 9);
    expect(contrastRatio("#8a2be2", "#8a2be2")).toBe(1);
  });

  // Source: axe-core's own colour arithmetic.
  it("agrees with axe-core on every pair of the themes' colours", () => {
    for (const theme of Object.values(THEMES)) {
      for (const colour of Object.values(theme))
        expect(contrastRatio(colour, theme.paper)).toBeCloseTo(byAxe(colour, theme.paper), 2);
    }
  });
});
