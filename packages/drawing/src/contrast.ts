/** Relative luminance of an sRGB colour "#rrggbb", 0 to 1. Source: W3C, WCAG 2.2, definition of relative luminance. */
function relativeLuminance(hex: string): number {
  const channel = (from: number): number => {
    const c = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/** Contrast ratio of two colours, 1 to 21. Source: W3C, WCAG 2.2, definition of contrast ratio. */
export function contrastRatio(a: string, b: string): number {
  const [dark, light] = [relativeLuminance(a), relativeLuminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}
