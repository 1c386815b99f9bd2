import { FOOT_M } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { worldToScreen } from "../viewport.ts";
import { scaleBar, scaleBarLength } from "./scale-bar.ts";

const viewport = (pxPerM: number) => ({ widthPx: 800, heightPx: 600, centre: [12, 7], pxPerM }) as const;
const SCALES = [0.07, 0.9, 3, 7.7, 20, 33, 100, 640, 3000];

describe("scale bar", () => {
  it.each(["metric", "imperial"] as const)("is drawn as long as it says at every scale, %s", (system) => {
    const unitM = system === "metric" ? 1 : FOOT_M;
    for (const pxPerM of SCALES) {
      const view = viewport(pxPerM);
      const primitives = scaleBar(view, system);
      const xs = primitives.flatMap((p) =>
        p.kind === "path" && p.style.stroke ? p.points.map((point) => worldToScreen(view, point)[0]) : [],
      );
      const figures = primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []));
      const said = Number.parseFloat(figures.at(-1) ?? "");
      expect(figures[0]).toBe("0");
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(said * unitM * pxPerM, 6);
    }
  });

  it("is a round length of 60 to 150 px", () => {
    for (const pxPerM of SCALES) {
      for (const system of ["metric", "imperial"] as const) {
        const bar = scaleBarLength(viewport(pxPerM), system);
        expect([1, 2, 5]).toContain(Number(bar.length.toExponential(6).split("e")[0]));
        expect(bar.lengthM * pxPerM).toBeGreaterThanOrEqual(60 - 1e-9);
        expect(bar.lengthM * pxPerM).toBeLessThanOrEqual(150 + 1e-6);
      }
    }
  });
});
