import { EXAMPLES, evaluate, type Plan } from "@gantline/plan";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { notFinite } from "./fuzz/not-finite.ts";
import { xmlFault } from "./fuzz/xml-fault.ts";
import { withOverlays } from "./overlays/with-overlays.ts";
import { drawPlan } from "./plan-view.ts";
import type { Drawing, WorldPoint } from "./primitives.ts";
import { layoutDrawing, SMALLEST_TEXT_PX } from "./render/layout-drawing.ts";
import { textWidthPx } from "./render/text-width.ts";
import { drawSection } from "./section.ts";
import { sheetViewport, svgSheet } from "./svg-sheet.ts";
import { svgText } from "./svg-text.ts";
import { fitViewport, zoomAt } from "./viewport.ts";

const SEED = 20261125;
const any = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** A plan with its vehicle, pose, load and hands anywhere, and some of what is known left out. */
const anyPlan: fc.Arbitrary<Plan> = fc
  .record({
    base: fc.constantFrom(...EXAMPLES.map((e) => e.plan)),
    at: fc.tuple(any(-25, 25), any(-25, 25)),
    heading: any(0, 6.28),
    bearing: any(0, 6.28),
    elevation: any(-0.1, 1.5707),
    length: any(9, 30),
    load: fc.tuple(any(-20, 20), any(-20, 20), any(-3, 30)),
    drive: fc.constantFrom("position" as const, "length" as const),
    unknownMass: fc.boolean(),
    unknownVoltage: fc.boolean(),
    gust: fc.option(any(0, 20)),
    bare: fc.boolean(),
  })
  .map(
    ({
      base,
      at,
      heading,
      bearing,
      elevation,
      length,
      load,
      drive,
      unknownMass,
      unknownVoltage,
      gust,
      bare,
    }): Plan => ({
      ...base,
      scene: {
        ...base.scene,
        ...(bare ? { casualty: null, destination: null, datum: null, structures: [], parking: [], areas: [] } : {}),
        powerLines: base.scene.powerLines.map((p) => ({ ...p, voltageKv: unknownVoltage ? null : p.voltageKv })),
        wind: { ...base.scene.wind, gustMS: gust },
      },
      aerial: {
        ...base.aerial,
        place: { ...base.aerial.place, turntableX: at[0], turntableY: at[1], headingRad: heading },
        pose: { bearingRad: bearing, elevationRad: elevation, lengthM: length },
      },
      rig: {
        ...base.rig,
        load: {
          ...base.rig.load,
          positionM: load,
          drive,
          parts: base.rig.load.parts.map((p, i) => (unknownMass && i === 0 ? { ...p, massKg: null } : p)),
        },
        mainLines: base.rig.mainLines.map((l) => ({ ...l, lengthM: drive === "length" ? 45 : l.lengthM })),
        taglines: base.rig.taglines.map((t) => ({ ...t, drive: "tension" as const, tensionN: 60 })),
      },
    }),
  );

const drawings = (plan: Plan, system: "metric" | "imperial"): readonly Drawing[] => {
  const evaluation = evaluate(plan);
  return [drawSection(plan, evaluation, { system }), drawPlan(plan, evaluation, { system })];
};

const SHEET = { widthPx: 1200, heightPx: 850, captions: ["Caution & care", "Example data"] } as const;

describe("drawings, whatever the plan", () => {
  it("hold only finite numbers, and name no undefined thing", () => {
    fc.assert(
      fc.property(anyPlan, fc.constantFrom("metric" as const, "imperial" as const), (plan, system) => {
        for (const drawing of drawings(plan, system)) {
          expect(notFinite(drawing, drawing.id)).toEqual([]);
          expect(JSON.stringify(drawing)).not.toMatch(/undefined|NaN|Infinity|\[object/);
        }
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  it("become well-formed SVG of moderate size, with no number that is none", () => {
    fc.assert(
      fc.property(anyPlan, fc.constantFrom("day" as const, "night" as const), (plan, theme) => {
        for (const drawing of drawings(plan, "metric")) {
          const text = svgText(svgSheet(drawing, { ...SHEET, system: "metric", theme, heading: '<"Plan" & more>' }));
          expect(xmlFault(text)).toBeNull();
          expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
          expect((text.match(/<(path|circle|text)\b/g) ?? []).length).toBeLessThan(500);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });

  it("keep within their bounds what must be seen: ladder, load, vehicle", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const { bounds, primitives } of drawings(plan, "metric")) {
          const seen = primitives.flatMap((p): readonly WorldPoint[] =>
            p.kind === "path" &&
            (p.title === "Load" || p.title === "Vehicle" || p.title?.startsWith("Ladder, section 1"))
              ? p.points
              : [],
          );
          expect(seen.length).toBeGreaterThan(0);
          for (const [x, y] of seen) {
            expect(x).toBeGreaterThan(bounds.minX - 1.5);
            expect(x).toBeLessThan(bounds.maxX + 1.5);
            expect(y).toBeGreaterThan(bounds.minY - 1.5);
            expect(y).toBeLessThan(bounds.maxY + 1.5);
          }
        }
      }),
      { seed: SEED, numRuns: 80 },
    );
  });

  it("set no text smaller than can be read, and let no two upright labels lie on each other", () => {
    let pairs = 0;
    let overlaps = 0;
    fc.assert(
      fc.property(anyPlan, any(0.4, 4), (plan, zoom) => {
        for (const drawing of drawings(plan, "metric")) {
          const view = zoomAt(sheetViewport(drawing, SHEET), [600, 400], zoom);
          const texts = layoutDrawing(withOverlays(drawing, view, { system: "metric" }).primitives, view).flatMap(
            (m) => (m.kind === "text" ? [m] : []),
          );
          for (const t of texts) expect(t.sizePx).toBeGreaterThanOrEqual(SMALLEST_TEXT_PX);
          const boxes = texts
            .filter((t) => t.rotateDeg === 0)
            .map((t) => {
              const w = textWidthPx(t.text, t.sizePx, t.strong, t.caps);
              const left = t.at[0] - (t.align === "end" ? w : t.align === "middle" ? w / 2 : 0);
              return { left, right: left + w, top: t.at[1] - 0.7 * t.sizePx, bottom: t.at[1] + 0.2 * t.sizePx };
            });
          boxes.forEach((a, i) => {
            for (const b of boxes.slice(i + 1)) {
              pairs++;
              if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) overlaps++;
            }
          });
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
    // A label that is to be kept may find every place taken; that must stay rare.
    expect(pairs).toBeGreaterThan(20_000);
    expect(overlaps / pairs).toBeLessThan(2e-4);
  });

  it("are the same every time", () => {
    for (const { plan } of EXAMPLES) {
      const write = (): string =>
        drawings(plan, "metric")
          .map((d) => svgText(svgSheet(d, { ...SHEET, system: "metric", heading: plan.name })))
          .join("");
      expect(write()).toBe(write());
    }
  });

  it("keep few words and larger type when asked to", () => {
    const [section] = drawings((EXAMPLES[1] ?? EXAMPLES[0])?.plan as Plan, "metric");
    if (!section) throw new Error("no example");
    const view = fitViewport(section.bounds, 900, 700, 60);
    const texts = (options: object) =>
      layoutDrawing(section.primitives, view, options).flatMap((m) => (m.kind === "text" ? [m] : []));
    expect(texts({ leastPriority: 81 }).length).toBeLessThan(texts({}).length / 2);
    expect(Math.min(...texts({ textScale: 1.5 }).map((t) => t.sizePx))).toBeCloseTo(
      1.5 * Math.min(...texts({}).map((t) => t.sizePx)),
      9,
    );
  });
});
