import { type Evolution, EXAMPLES, evolve, type Plan } from "@gantline/plan";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { notFinite } from "../fuzz/not-finite.ts";
import { xmlFault } from "../fuzz/xml-fault.ts";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { svgText } from "../svg-text.ts";
import { worldToScreen } from "../viewport.ts";
import type { Chart } from "./chart.ts";
import { momentAt, shareAt, whenAt, whenThrough, xAt } from "./scrub.ts";
import { seriesCurve } from "./series-curve.ts";
import { svgChart } from "./svg-chart.ts";
import { worstCurve, worstSays } from "./worst-curve.ts";

const SEED = 20261125;
const SIZE = { widthPx: 900, heightPx: 240, system: "metric" } as const;
const example = (key: string): Plan => {
  const found = EXAMPLES.find((e) => e.key === key);
  if (!found) throw new Error(`no example ${key}`);
  return found.plan;
};
const crossing = evolve(example("crossing"));
const roof = evolve(example("roof"));
const fault = evolve(example("fault"));
const PLANS = [crossing, roof, fault];
const worst = (evolution: Evolution) => worstCurve(evolution, { ...SIZE, closeRatio: 0.9 });

const titled = ({ primitives }: Chart, title: string): readonly Primitive[] =>
  primitives.filter((p) => "title" in p && p.title === title);
const onSheet = (chart: Chart, at: WorldPoint) => worldToScreen(chart.viewport, at);
const texts = ({ primitives }: Chart) => primitives.flatMap((p) => (p.kind === "text" ? [p] : []));

/** Height of a ratio on the sheet, from the drawn figures of the axis alone. */
function heightOf(chart: Chart, percent: number): number {
  const figures = texts(chart).filter((t) => /^\d+$/.test(t.text) && t.align === "end");
  const [low, high] = [figures[0], figures.at(-1)];
  if (!low || !high) throw new Error("no axis");
  const [y0, y1] = [onSheet(chart, low.at)[1], onSheet(chart, high.at)[1]];
  return y0 + ((y1 - y0) * (percent - Number(low.text))) / (Number(high.text) - Number(low.text));
}

describe("curve of the worst ratio", () => {
  it.each([
    ["crossing", crossing],
    ["roof", roof],
    ["fault", fault],
  ] as const)("rings the highest ratio of %s at its moment and its height", (_, evolution) => {
    const chart = worst(evolution);
    const peak = Math.max(...evolution.moments.flatMap((m) => m.worst.ratio ?? []));
    const moment = evolution.moments.find((m) => m.worst.ratio === peak);
    const [ring] = titled(chart, "Highest");
    if (!moment || ring?.kind !== "mark") throw new Error("no peak drawn");
    const [x, y] = onSheet(chart, ring.at);
    const { leftPx, rightPx } = chart.plot;
    const share = (moment.when.stage + moment.when.along) / evolution.stages.length;
    expect(x).toBeCloseTo(leftPx + share * (rightPx - leftPx), 6);
    expect(y).toBeCloseTo(heightOf(chart, 100 * peak), 6);
  });

  it("passes through every moment that has a ratio", () => {
    for (const evolution of PLANS) {
      const chart = worst(evolution);
      const names = new Set(evolution.ledger.map((c) => c.subject));
      const drawn = chart.primitives.flatMap((p) =>
        p.kind === "paths" && names.has(p.title ?? "") ? p.parts.flat() : [],
      );
      const told = evolution.moments.flatMap(({ when, worst: w }) =>
        w.ratio === null ? [] : [{ when, ratio: w.ratio }],
      );
      expect(told.length).toBeGreaterThan(50);
      for (const { when, ratio } of told) {
        const x = xAt(evolution, chart.plot, when);
        const y = heightOf(chart, 100 * ratio);
        expect(drawn.some((p) => Math.hypot(onSheet(chart, p)[0] - x, onSheet(chart, p)[1] - y) < 1e-6)).toBe(true);
      }
    }
  });

  it("draws limit and close ratio where the axis has 100 and 90 per cent", () => {
    const chart = worst(crossing);
    for (const [title, percent] of [
      ["limit", 100],
      ["close from 90\u202f%", 90],
    ] as const) {
      const [line] = titled(chart, title);
      if (line?.kind !== "path") throw new Error(`no ${title}`);
      for (const p of line.points) expect(onSheet(chart, p)[1]).toBeCloseTo(heightOf(chart, percent), 6);
    }
    expect(titled(worstCurve(crossing, { ...SIZE, closeRatio: null }), "close from 90\u202f%")).toEqual([]);
  });

  it("hatches the stage that cannot be carried out as written, from its start to its end, and says over", () => {
    const chart = worst(fault);
    const bands = titled(chart, "over");
    expect(bands).toHaveLength(1);
    const [band] = bands;
    const hatched = chart.primitives.filter((p) => p.kind === "path" && p.style.hatch);
    if (band?.kind !== "path" || hatched.length !== 1) throw new Error("no band");
    const xs = band.points.map((p) => onSheet(chart, p)[0]);
    const moving = fault.stages.findIndex((s) => s.stage.action === "moveLadder");
    expect(moving).toBe(3);
    expect(Math.min(...xs)).toBeCloseTo(xAt(fault, chart.plot, { stage: moving, along: 0 }), 6);
    expect(Math.max(...xs)).toBeCloseTo(xAt(fault, chart.plot, { stage: moving, along: 1 }), 6);
    expect(texts(chart).filter((t) => t.text === "over" && t.sign === "cross")).toHaveLength(1);
    expect(chart.description).toContain("Over in stage 4.");
    expect(titled(worst(crossing), "over")).toEqual([]);
  });

  it("says unknown where a mass is missing, and dashes what is known", () => {
    const plan = example("roof");
    const parts = plan.rig.load.parts.map((p) => (p.id === "casualty" ? { ...p, massKg: null } : p));
    const evolution = evolve({ ...plan, rig: { ...plan.rig, load: { ...plan.rig.load, parts } } });
    const chart = worst(evolution);
    expect(texts(chart).filter((t) => t.text === "unknown" && t.sign === "question")).toHaveLength(1);
    const [known] = titled(chart, "Highest ratio that is known");
    if (known?.kind !== "paths") throw new Error("nothing dashed");
    const xs = known.parts.flat().map((p) => onSheet(chart, p)[0]);
    expect(Math.min(...xs)).toBeCloseTo(xAt(evolution, chart.plot, { stage: 7, along: 0 }), 6);
    expect(Math.max(...xs)).toBeCloseTo(xAt(evolution, chart.plot, { stage: 8, along: 1 }), 6);
  });

  it("never draws a ratio above its field, but writes how high it goes", () => {
    const plan = example("crossing");
    const taglines = plan.rig.taglines.map((t) => ({ ...t, people: 0 }));
    const chart = worst(evolve({ ...plan, rig: { ...plan.rig, taglines } }));
    const ys = chart.primitives.flatMap((p) =>
      p.kind === "paths" ? p.parts.flat().map((q) => onSheet(chart, q)[1]) : [],
    );
    expect(Math.min(...ys)).toBeGreaterThan(0);
    expect(texts(chart).some((t) => t.text.startsWith("over 9900"))).toBe(true);
  });
});

describe("a strip for the screen", () => {
  it("is the same curve with less about it: no title, no words under it, every stage still named", () => {
    for (const heightPx of [80, 110, 150]) {
      for (const evolution of PLANS) {
        const strip = worstCurve(evolution, { ...SIZE, heightPx, closeRatio: 0.9 });
        const peak = Math.max(...evolution.moments.flatMap((m) => m.worst.ratio ?? []));
        const [ring] = titled(strip, "Highest");
        if (ring?.kind !== "mark") throw new Error("no peak drawn");
        expect(onSheet(strip, ring.at)[1]).toBeCloseTo(heightOf(strip, 100 * peak), 6);
        expect(strip.plot.topPx).toBeLessThan(worst(evolution).plot.topPx);
        expect(strip.plot.bottomPx).toBeLessThan(heightPx);
        expect(texts(strip).map((t) => t.text)).not.toContain(strip.title);
        expect(texts(strip).map((t) => t.text)).toContain("%");
        for (const i of evolution.stages.keys())
          expect(texts(strip).some((t) => t.text.startsWith(`${i + 1}`))).toBe(true);
      }
    }
  });

  it("tells the same share of every moment as it stands at", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        const when = whenThrough(roof, share);
        expect(when && shareAt(roof, when)).toBeCloseTo(share, 12);
      }),
      { seed: SEED },
    );
    expect(whenThrough(roof, 7)).toEqual({ stage: roof.stages.length - 1, along: 1 });
    expect(whenThrough(roof, -7)).toEqual({ stage: 0, along: 0 });
    expect(whenThrough(roof, Number.NaN)).toBeNull();
  });
});

describe("curve of one figure", () => {
  it("is open where there is no figure, and through each that there is", () => {
    for (const evolution of PLANS) {
      for (const series of evolution.series) {
        const chart = seriesCurve(evolution, series.id, SIZE);
        if (!chart) throw new Error(series.id);
        const drawn = chart.primitives.flatMap((p) => (p.kind === "paths" && p.title === series.label ? p.parts : []));
        const unknown = evolution.moments.filter((_, i) => series.values[i] === null);
        for (const part of drawn) {
          const xs = part.map((p) => onSheet(chart, p)[0]);
          const [from, to] = [Math.min(...xs), Math.max(...xs)];
          for (const m of unknown) {
            const x = xAt(evolution, chart.plot, m.when);
            expect(x <= from + 1e-6 || x >= to - 1e-6).toBe(true);
          }
        }
        const known = series.values.filter((v) => v !== null).length;
        expect(drawn.flat().length).toBeGreaterThanOrEqual(known);
      }
    }
  });

  it("writes its highest and lowest as the series has them", () => {
    const series = crossing.series.find((s) => s.id === "force/tip");
    const chart = seriesCurve(crossing, "force/tip", SIZE);
    if (!series || !chart) throw new Error("no force at the tip");
    const known = series.values.filter((v) => v !== null);
    const highest = texts(chart).find((t) => t.text.startsWith("highest "));
    const lowest = texts(chart).find((t) => t.text.startsWith("lowest "));
    expect(Number.parseFloat(highest?.text.slice(8) ?? "")).toBeCloseTo(Math.max(...known) / 1000, 2);
    expect(Number.parseFloat(lowest?.text.slice(7) ?? "")).toBeCloseTo(Math.min(...known) / 1000, 2);
  });

  it("is null for a series there is not, and says so where one has no figure at all", () => {
    expect(seriesCurve(crossing, "force/nothing", SIZE)).toBeNull();
    const series = { id: "x", label: "X", quantity: "force" as const, values: crossing.moments.map(() => null) };
    const chart = seriesCurve({ ...crossing, series: [series] }, "x", SIZE);
    expect(chart?.description).toBe("X: no figure at any moment.");
    expect(chart && texts(chart).filter((t) => t.text === "no figure")).toHaveLength(1);
  });
});

describe("scrubbing", () => {
  const { plot } = worst(roof);

  it("finds the moment again from where it is drawn", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PLANS),
        fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
        fc.nat(),
        (evolution, along, n) => {
          const stage = n % evolution.stages.length;
          const when = whenAt(evolution, plot, xAt(evolution, plot, { stage, along }));
          if (!when) throw new Error("no moment");
          expect(when.stage + when.along).toBeCloseTo(stage + along, 9);
          expect(when.along).toBeGreaterThanOrEqual(0);
          expect(when.along).toBeLessThanOrEqual(1);
        },
      ),
      { seed: SEED, numRuns: 400 },
    );
  });

  it("stays within the evolution wherever it is asked", () => {
    expect(whenAt(roof, plot, -500)).toEqual({ stage: 0, along: 0 });
    expect(whenAt(roof, plot, 99_999)).toEqual({ stage: roof.stages.length - 1, along: 1 });
    expect(whenAt(roof, plot, Number.NaN)).toBeNull();
    expect(whenAt({ ...roof, stages: [], moments: [] }, plot, 100)).toBeNull();
  });

  it("takes the solved moment of the same stage that is nearest", () => {
    for (const moment of roof.moments) expect(momentAt(roof, moment.when)).toBe(moment);
    expect(momentAt(roof, { stage: 99, along: 0 })).toBeNull();
    const near = momentAt(roof, { stage: 3, along: 0.002 });
    expect(near?.when.stage).toBe(3);
    expect(near?.when.along).toBe(0);
  });

  it("draws the line of the moment at its place, with how bad it is", () => {
    const now = { stage: 3, along: 1 };
    const chart = worstCurve(crossing, { ...SIZE, closeRatio: 0.9, now });
    const line = chart.primitives.find((p) => p.kind === "path" && p.title?.startsWith("stage 4, 100"));
    if (line?.kind !== "path") throw new Error("no line");
    for (const p of line.points) expect(onSheet(chart, p)[0]).toBeCloseTo(xAt(crossing, chart.plot, now), 6);
    expect(line.title).toMatch(/close, \d+\u202f%, Sideways pull on the tip/);
    // Moving the ladder with a person on the ropes: no check's ratio speaks for that stage.
    expect(worstSays(fault, { stage: 3, along: 0.5 })).toBe("over: the stage cannot be carried out as written");
    expect(worstSays(fault, { stage: 2, along: 0 })).toMatch(/^within, \d+\u202f%, /);
  });
});

describe("curves, whatever the evolution and the sheet", () => {
  it("hold only finite numbers and become well-formed SVG of few elements", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PLANS, { ...crossing, stages: [], moments: [], series: [], ledger: [] }),
        fc.integer({ min: 60, max: 2400 }),
        fc.integer({ min: 40, max: 800 }),
        fc.constantFrom("metric" as const, "imperial" as const),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(),
        (evolution, widthPx, heightPx, system, along, n) => {
          const now = { stage: n % Math.max(1, evolution.stages.length), along };
          const options = { widthPx, heightPx, system, now };
          const series = evolution.series[n % Math.max(1, evolution.series.length)];
          const charts = [
            worstCurve(evolution, { ...options, closeRatio: 0.9 }),
            ...(series ? [seriesCurve(evolution, series.id, options)] : []),
          ];
          for (const chart of charts) {
            if (!chart) throw new Error("no chart");
            expect(notFinite(chart, "chart")).toEqual([]);
            const text = svgText(svgChart(chart));
            expect(xmlFault(text)).toBeNull();
            expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
            expect((text.match(/<(path|circle|text)\b/g) ?? []).length).toBeLessThan(120);
          }
        },
      ),
      { seed: SEED, numRuns: 80 },
    );
  });
});
