import {
  EXAMPLES,
  evaluateAt,
  evolve,
  type LetGoCase,
  momentPlan,
  type Plan,
  type ShareSlackCell,
  type ShareSlackMap,
  techniquePlan,
  techniques,
} from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { notFinite } from "../fuzz/not-finite.ts";
import { xmlFault } from "../fuzz/xml-fault.ts";
import type { Primitive } from "../primitives.ts";
import { textWidthPx } from "../render/text-width.ts";
import { svgText } from "../svg-text.ts";
import { svgTree } from "../to-svg.ts";
import { caseSays, mostText } from "./case-says.ts";
import { cutsCurve } from "./cuts-curve.ts";
import { drawCritical } from "./draw-critical.ts";
import { drawLetGo } from "./draw-let-go.ts";
import { drawTechnique } from "./draw-technique.ts";
import { dropCurve, nearestCurve, pointCurve, swingCurve, tensionCurve } from "./motion-curve.ts";
import { placeAt, replayed } from "./replayed.ts";
import { shareSlackChart } from "./share-slack-chart.ts";
import { techniqueSays } from "./technique-says.ts";
import { techniqueSheet } from "./technique-sheet.ts";

const WHEN = { stage: 2, along: 0.5 };
const crossing = EXAMPLES.find((e) => e.key === "crossing")?.plan as Plan;
const plan = momentPlan(crossing, WHEN);
const evaluation = evaluateAt(crossing, WHEN);
const yoke = evaluation.load.yoke;
const [first, second] = evaluation.lines.filter(({ role }) => role === "main");
const sheave = second?.nodes[1]?.at ?? yoke;
const down = (m: number) => [yoke[0], yoke[1], yoke[2] - m] as unknown as typeof yoke;
const band = (entered: number) => ({ low: 0.9 * entered, entered, high: 1.2 * entered });

const force = (compressionN: number, lateralN: number) => ({
  compressionN,
  normalN: -0.3 * compressionN,
  lateralN,
  resultantN: Math.hypot(compressionN, 0.3 * compressionN, lateralN),
});

/** Main A goes; the load sinks by 0.4 m in one second and comes to rest 0.3 m down at two: made up, so that drawings can be held to it. */
const made: LetGoCase = {
  when: WHEN,
  cut: [first?.id ?? ""],
  yoke,
  outcome: "held",
  says: ["Main B holds."],
  holds: [second?.name ?? ""],
  slipUnknown: [],
  fall: null,
  roomM: 6,
  motion: {
    timesS: [0, 1, 2],
    places: { yoke: [yoke, down(0.4), down(0.3)] },
    tensionsN: { [second?.id ?? ""]: [600, 2000, 1200] },
    forcesN: {},
    pointsN: { eye: [force(1900, 20), force(3600, -30), force(2100, 10)] },
    nearestM: { "Flood wall": [0.9, 0.6, 0.7] },
  },
  undamped: {
    timesS: [0, 1, 1.5],
    places: { yoke: [yoke, down(0.5), down(0.1)] },
    tensionsN: { [second?.id ?? ""]: [600, 2400, 900] },
    forcesN: {},
    pointsN: { eye: [force(1900, 20), force(4000, -80), force(1500, 30)] },
    nearestM: { "Flood wall": [0.9, 0.5, 0.8] },
  },
  settled: { atRest: true, timeS: 2, yoke: down(0.3), tensionsN: { [second?.id ?? ""]: 1200 } },
  figures: {
    lines: [],
    points: [
      {
        pointId: "eye",
        name: "Tip eye",
        at: sheave,
        peakN: band(4000),
        forceN: [0, 0, -4000] as unknown as typeof yoke,
        inBeam: { compressionN: 3800, normalN: -1200, lateralN: 0, resultantN: 4000, offAxisRad: 0.3, offPlaneRad: 0 },
      },
    ],
    tipN: band(4000),
    tipBeforeN: 2300,
    tipInBeam: { compressionN: 3800, normalN: -1200, lateralN: 0, resultantN: 4000, offAxisRad: 0.3, offPlaneRad: 0 },
    utilisations: {} as NonNullable<LetGoCase["figures"]>["utilisations"],
    partsN: {},
    person: null,
    dropM: band(0.4),
    swingM: band(0),
    nearest: [{ what: "Flood wall", distanceM: 0.5, bandM: band(0.5), atS: 1, yoke: down(0.4) }],
    hits: [],
    lowest: down(0.4),
    farthest: yoke,
  },
};
const falls: LetGoCase = {
  ...made,
  outcome: "falls",
  figures: null,
  motion: null,
  fall: { heightM: 6, speedMS: 10.85, onto: "what is below", slippedM: 0, timeS: 1.106, strikes: null },
};

const texts = (primitives: readonly Primitive[]): readonly string[] =>
  primitives.flatMap((p) => (p.kind === "text" ? [p.text] : []));

describe("replay", () => {
  it("finds the load between samples on the straight line, and before and after at its ends", () => {
    const z = (atS: number) => (made.motion && placeAt(made.motion, "yoke", atS)?.[2]) ?? Number.NaN;
    expect(z(-1)).toBe(yoke[2]);
    expect(z(0.5)).toBeCloseTo(yoke[2] - 0.2, 12);
    expect(z(1.5)).toBeCloseTo(yoke[2] - 0.35, 12);
    expect(z(99)).toBeCloseTo(yoke[2] - 0.3, 12);
  });

  it("leaves the line that went off, and hangs the others and the whole load from where the yoke is then", () => {
    const then = replayed(evaluation, made, 1);
    expect(then.lines.map(({ id }) => id)).not.toContain(first?.id);
    for (const line of then.lines) expect(line.nodes[0]?.at).toEqual(down(0.4));
    const sunk = then.load.box.vertices.map((v, i) => (evaluation.load.box.vertices[i]?.[2] ?? 0) - v[2]);
    for (const m of sunk) expect(m).toBeCloseTo(0.4, 12);
    expect(then.lines.find(({ id }) => id === second?.id)?.tensionsN.raise[0]).toBe(2000);
  });
});

describe("what happens when a line goes, drawn", () => {
  it.each([
    ["section", made],
    ["plan", made],
    ["section", falls],
    ["plan", falls],
  ] as const)("in the %s is finite and well-formed, day and night", (view, one) => {
    for (const near of [false, true]) {
      const drawing = drawLetGo(plan, evaluation, one, { system: "imperial", view, near, atS: 0.7 });
      expect(notFinite(drawing, "drawing")).toEqual([]);
      const { minX, minY, maxX, maxY } = drawing.bounds;
      const viewport = {
        widthPx: 500,
        heightPx: 400,
        centre: [(minX + maxX) / 2, (minY + maxY) / 2],
        pxPerM: 8,
      } as const;
      for (const theme of ["day", "night"] as const)
        expect(xmlFault(svgText(svgTree(drawing, viewport, { theme })))).toBeNull();
    }
  });

  it("draws the highest force at the tip to the scale it states", () => {
    const drawing = drawLetGo(plan, evaluation, made, { system: "metric", view: "section" });
    const arrows = drawing.primitives.filter((p) => p.kind === "arrow" && p.title?.startsWith("Tip eye"));
    expect(arrows).toHaveLength(1);
    const [arrow] = arrows;
    if (arrow?.kind !== "arrow") throw new Error("no arrow");
    const drawnM = Math.hypot(arrow.to[0] - arrow.from[0], arrow.to[1] - arrow.from[1]);
    expect(drawnM * drawing.forceScaleNPerM).toBeCloseTo(4000, 6);
    expect(drawing.forceCaseText).toBe("at its highest");
  });

  it("says what goes, how low, what is near, and the band", () => {
    const drawn = texts(drawLetGo(plan, evaluation, made, { system: "metric", view: "section" }).primitives).join("\n");
    expect(drawn).toContain("A goes");
    expect(drawn).toMatch(/lowest, 0\.48.m down/);
    expect(drawn).toMatch(/0\.50.m from Flood wall/);
    expect(drawn).toMatch(/at most 4\.80.kN \(3\.60.kN to 4\.80.kN\)/);
    const fallen = texts(drawLetGo(plan, evaluation, falls, { system: "metric", view: "section" }).primitives).join(
      "\n",
    );
    expect(fallen).toMatch(/nothing holds it: falls 6\.00.m onto what is below, 10\.(8|9)/);
  });

  it('writes after "at most" the high end first, and a band of one value once', () => {
    const write = (value: number | null) => `${value}`;
    expect(mostText({ low: 2, high: 2 }, "force", write)).toBe("2");
    expect(mostText({ low: 1, high: 3 }, "force", write)).toBe("3 (1 to 3)");
    expect(caseSays(made, "metric")).toMatch(/at most 4\.80.kN \(3\.60.kN to 4\.80.kN\)/);
  });

  it("says of a load that a brake lets down that it is not held, and onto what it comes", () => {
    const lowered: LetGoCase = {
      ...falls,
      fall: { heightM: 6, speedMS: 0.4, onto: "Flood wall", slippedM: 5.8, timeS: 15, strikes: null },
    };
    const drawn = texts(drawLetGo(plan, evaluation, lowered, { system: "metric", view: "section" }).primitives);
    expect(drawn.join("\n")).toMatch(/not held: comes down 6\.00.m onto Flood wall, 0\.4/);
  });

  it("rings a critical point where it is, with and without a motion", () => {
    const point = {
      id: "everyone",
      subject: "Everyone lets go",
      kind: "everyone",
      at: sheave,
      lines: [],
      shared: false,
      unavoidable: false,
      outcome: "falls",
      says: ["Nothing: a person falls."],
    } as const;
    for (const result of [null, falls, made]) {
      const drawing = drawCritical(plan, evaluation, { ...point, result }, { system: "metric" });
      expect(drawing.primitives.filter((p) => p.kind === "circle" && p.title === point.subject)).toHaveLength(1);
      expect(notFinite(drawing, "drawing")).toEqual([]);
    }
  });
});

describe("the replay of a fall", () => {
  const timesS = [0, 0.5, 1];
  const motion = {
    timesS,
    places: { yoke: timesS.map((t) => down(6 * t ** 2)) },
    tensionsN: {},
    forcesN: {},
    pointsN: {},
    nearestM: { "what is below": [6, 4.5, 0], "Flood wall": [0.5, 0.5, 0.5] },
  };
  const fallen: LetGoCase = { ...falls, motion, undamped: motion };

  it("draws the load down at its end, its way, and curves that say there is one motion only", () => {
    const drawing = drawLetGo(plan, evaluation, fallen, { system: "metric", view: "section" });
    expect(drawing.primitives.filter((p) => p.kind === "path" && p.title === "Way of the load")).toHaveLength(1);
    expect(replayed(evaluation, fallen, 1).load.yoke).toEqual(down(6));
    const size = { widthPx: 480, heightPx: 190, system: "metric" } as const;
    expect(tensionCurve(fallen, evaluation, size)).toBeNull();
    const drop = dropCurve(fallen, size)?.description ?? "";
    expect(drop).toMatch(/6\.00.m/);
    expect(drop).toContain("until it is down");
    expect(drop).not.toContain("of critical");
    expect(nearestCurve(fallen, size)?.description).toMatch(/what is below at its lowest as entered 0\.00.m/);
  });
});

describe("curves of a case", () => {
  const size = { widthPx: 480, heightPx: 190, system: "metric", nowS: 1 } as const;

  it("mark the highest tension of each line and the deepest place, of the motion without damping that the figures are of", () => {
    const tension = tensionCurve(made, evaluation, size);
    expect(tension?.description).toMatch(/at its highest as entered 2\.40.kN/);
    expect(texts(tension?.primitives ?? []).join("\n")).toMatch(/B 2\.40.kN/);
    expect(texts(dropCurve(made, size)?.primitives ?? []).join("\n")).toMatch(/0\.50.m/);
    expect(notFinite([tension, dropCurve(made, size)], "charts")).toEqual([]);
  });

  it("say which line is damped, and by how much, and shade what the highest may be", () => {
    const drop = dropCurve(made, size);
    const paths = (drop?.primitives ?? []).flatMap((p) => (p.kind === "path" ? [p] : []));
    // The middle of the range that the reference page gives for loaded ropes is above the tenth that is taken.
    expect(texts(drop?.primitives ?? []).join("\n")).toContain("thin: damped, 10 % of critical, as replayed");
    expect(drop?.description).toContain("damped, 10 % of critical");
    const [shaded] = paths.filter((p) => p.closed && p.title?.includes("at most"));
    expect(shaded?.title).toMatch(/0\.36.m to 0\.48.m/);
    const widths = paths.filter((p) => !p.closed).map((p) => p.style.widthPx ?? 0);
    expect(Math.min(...widths)).toBeLessThan(0.5 * Math.max(...widths));
  });

  it("show the force at a rigging point whole and in the ladder's axes, with what it may get", () => {
    const eye = { pointId: "eye", name: "Tip eye" };
    const chart = pointCurve(made, eye, { ...size, limit: { value: 5000, name: "its rating" } });
    const drawn = texts(chart?.primitives ?? []).join("\n");
    expect(chart?.title).toContain("Force at Tip eye");
    for (const word of [
      /whole 4\.18.kN/,
      /along 4\.00.kN/,
      /square −1\.20.kN/,
      /sideways −0\.08.kN/,
      /its rating, 5\.00.kN/,
    ])
      expect(drawn).toMatch(word);
    const line = chart?.primitives.find((p) => p.kind === "path" && p.title?.startsWith("its rating"));
    expect(line?.kind === "path" && line.points[0]?.[1]).toBe(line?.kind === "path" && line.points[1]?.[1]);
    // Far above all that is reached it is only written, so that the lines can be read.
    const far = pointCurve(made, eye, { ...size, limit: { value: 50_000, name: "its rating" } });
    expect(far?.primitives.some((p) => p.kind === "path" && p.title?.startsWith("its rating"))).toBe(false);
    expect(texts(far?.primitives ?? []).join("\n")).toMatch(/its rating, 50\.0.kN: above the chart/);
    expect(pointCurve(made, { pointId: "none", name: "None" }, size)).toBeNull();
    expect(notFinite([chart, far], "charts")).toEqual([]);
  });

  it("show how far aside the load swings, and how near it comes, by its lowest", () => {
    const aside: LetGoCase = {
      ...made,
      undamped: made.undamped && {
        ...made.undamped,
        places: { yoke: [0, 0.6, 0.2].map((m) => [yoke[0] + m, yoke[1], yoke[2]] as unknown as typeof yoke) },
      },
    };
    expect(texts(swingCurve(aside, size)?.primitives ?? []).join("\n")).toMatch(/0\.60.m/);
    const near = nearestCurve(made, size);
    expect(texts(near?.primitives ?? []).join("\n")).toMatch(/Flood wall 0\.50.m/);
    expect(near?.description).toMatch(/Flood wall at its lowest as entered 0\.50.m/);
    expect(notFinite([swingCurve(aside, size), near], "charts")).toEqual([]);
  });

  it("are none where nothing moves", () => {
    expect(tensionCurve(falls, evaluation, size)).toBeNull();
    for (const none of [dropCurve, swingCurve, nearestCurve]) expect(none(falls, size)).toBeNull();
  });
});

describe("map of share and slack", () => {
  const shares = [0.5, 0.6, 0.7, 0.8, 0.9, 1];
  const slacksM = [0, 0.25, 0.5, 0.75, 1];
  const forceN = (share: number, slackM: number) => 1000 + 4000 * share + 3000 * slackM;
  const held = (high: number): ShareSlackCell => ({
    outcome: "held",
    tipN: { low: 0.9 * high, high },
    lands: false,
  });
  const map: ShareSlackMap = {
    when: null,
    cut: "a",
    shares,
    slacksM,
    cells: shares.map((s) => slacksM.map((m) => held(forceN(s, m)))),
    slipUnknown: [],
    here: { share: 0.55, slackM: 0, ...held(forceN(0.55, 0)) },
  };
  const size = { widthPx: 600, heightPx: 380, system: "metric" } as const;

  it("runs the limit where a plane of forces crosses it, and hatches what is over", () => {
    const limit = { forceN: 5500, name: "Tip limit" };
    const chart = shareSlackChart(map, { ...size, limit });
    const line = chart.primitives.find((p) => p.kind === "path" && p.title === "Tip limit");
    if (line?.kind !== "path") throw new Error("no limit line");
    const { leftPx, rightPx, topPx, bottomPx } = chart.plot;
    for (const [x, y] of line.points) {
      const share = 0.5 + (0.5 * (x - leftPx)) / (rightPx - leftPx);
      const slackM = (y - (size.heightPx - bottomPx)) / (bottomPx - topPx);
      expect(forceN(share, slackM)).toBeCloseTo(limit.forceN, 6);
    }
    expect(chart.primitives.some((p) => p.kind === "paths" && p.style.hatch === "leanRight")).toBe(true);
    expect(texts(chart.primitives).join("\n")).toMatch(/Tip limit, 5\.50.kN/);
    expect(texts(chart.primitives).join("\n")).toMatch(/this plan: at most 3\.20.kN \(2\.88.kN to 3\.20.kN\)/);
  });

  it("marks where the load comes down, and says that a brake is only taken to hold", () => {
    const marks = (of: ShareSlackMap) =>
      shareSlackChart(of, size).primitives.filter((p) => p.kind === "mark" && p.shape === "triangleDown");
    expect(marks(map)).toEqual([]);
    const cells = map.cells.map((row, s) =>
      row.map((cell, m) => ({ ...cell, lands: shares[s] === 1 && (slacksM[m] ?? 0) > 0.6 })),
    );
    expect(marks({ ...map, cells })).toHaveLength(2);
    expect(shareSlackChart({ ...map, cells }, size).description).toContain("comes down on what is below");
    expect(texts(shareSlackChart(map, size).primitives).join("\n")).not.toContain("if no brake slips");
    const held = shareSlackChart({ ...map, slipUnknown: ["b"] }, size);
    expect(texts(held.primitives).join("\n")).toContain("if no brake slips");
  });

  it("keeps what it says of this plan within a narrow sheet, whole and to be read", () => {
    for (const share of [0.5, 0.7, 1]) {
      const narrow = { ...size, widthPx: 364 };
      const chart = shareSlackChart({ ...map, slipUnknown: ["b"], here: { ...map.here, share } }, narrow);
      const { leftPx, rightPx } = chart.plot;
      const words = chart.primitives.flatMap((p) =>
        p.kind === "text" && /^(this plan: at most .*\)|if no brake slips)$/.test(p.text) ? [p] : [],
      );
      expect(words).toHaveLength(2);
      for (const { text, at, align, offsetPx = [0, 0], sizePx, weight, italic } of words) {
        expect(sizePx).toBeGreaterThanOrEqual(10);
        const dotPx = leftPx + (rightPx - leftPx) * (2 * share - 1);
        const fromPx = (italic ? at[0] : dotPx) + offsetPx[0];
        const widthPx = textWidthPx(text, sizePx, weight === "strong", false);
        const startPx = align === "end" ? fromPx - widthPx : fromPx;
        expect(startPx).toBeGreaterThanOrEqual(leftPx - 1e-6);
        expect(startPx + widthPx).toBeLessThanOrEqual(rightPx + 1e-6);
      }
    }
  });

  it("says where all of it, or none, is over, and marks what is not known", () => {
    const words = (forceN: number) =>
      texts(shareSlackChart(map, { ...size, limit: { forceN, name: "Limit" } }).primitives).join("\n");
    expect(words(100)).toContain("All of it is over");
    expect(words(1e5)).toContain("None of it is over");
    const without = (outcome: "unknown" | "falls"): ShareSlackMap => ({
      ...map,
      cells: shares.map(() => slacksM.map(() => ({ outcome, tipN: null, lands: false }))),
      here: { ...map.here, outcome, tipN: null },
    });
    const chart = shareSlackChart(without("unknown"), { ...size, limit: { forceN: 5500, name: "Limit" } });
    expect(chart.primitives.filter((p) => p.kind === "mark" && p.shape === "question")).toHaveLength(30);
    expect(notFinite(chart, "chart")).toEqual([]);
    expect(texts(chart.primitives).join("\n")).toContain("this plan: unknown");
    expect(texts(chart.primitives).join("\n")).not.toContain("over");
    // What falls is known: told apart.
    const fallen = shareSlackChart(without("falls"), size);
    expect(fallen.primitives.filter((p) => p.kind === "mark" && p.shape === "cross")).toHaveLength(30);
    expect(texts(fallen.primitives).join("\n")).toContain("this plan: it falls");
  });
});

describe("techniques side by side", () => {
  const rows = techniques(crossing, WHEN).map((row) => ({ row, plan: techniquePlan(crossing, WHEN, row) }));

  it("make one well-formed sheet with each at rest and with its worst line gone, over its figures", () => {
    const sheet = techniqueSheet(rows, {
      widthPx: 1000,
      system: "imperial",
      name: "Ropes & tip",
      captions: ["Caution & care"],
      theme: "night",
    });
    const text = svgText(sheet);
    expect(xmlFault(text)).toBeNull();
    expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
    const pictures = rows.reduce((n, { row, plan: of }) => n + (of === null ? 0 : row.worst === null ? 2 : 3), 0);
    const placed = sheet.children.filter(({ tag }) => tag === "svg");
    expect(placed).toHaveLength(pictures);
    expect(pictures).toBeGreaterThan(10);
    for (const { attrs } of placed) {
      expect(Number(attrs.x) + Number(attrs.width)).toBeLessThanOrEqual(1000);
      expect(Number(attrs.y) + Number(attrs.height)).toBeLessThanOrEqual(Number(sheet.attrs.height));
    }
    for (const { row } of rows) expect(text).toContain(row.name.slice(0, 20));
  });

  it("say what a technique comes to: figures as they are, and that nothing holds where nothing does", () => {
    for (const { row } of rows) {
      const says = techniqueSays(row, "metric").join("\n");
      if (row.figures) {
        const { resultantN } = row.figures.tipInBeam;
        const shown = Number.parseFloat(/On the tip ([\d.]+)/.exec(says)?.[1] ?? "");
        expect(Math.abs(shown * 1000 - resultantN)).toBeLessThan(6);
      }
      if (row.worst?.outcome === "falls") expect(says).toMatch(/: people fall|: a person falls/);
      for (const need of row.needs) expect(says).toContain(need);
      if (row.figures) expect(says).toContain(`${row.figures.peopleRaising} to raise it by hand`);
      // The example's brake has no slip force: held is never said without that.
      if (row.worst?.figures) expect(says).toContain("if its brake does not slip: unknown");
      if (row.verdict) expect(says).toMatch(new RegExp(`Worst of its checks: .*: ${row.verdict.status}`));
      expect(says).not.toMatch(/main-a|at most 0\.00.kN on the tip, drop/);
    }
  });

  it("say all that can hurt: the highest tension and where, a person, swing, what is hit, and what is over", () => {
    const fault = EXAMPLES.find((e) => e.key === "fault")?.plan as Plan;
    const found = techniques(fault, { stage: 2, along: 1 });
    const says = (id: string, attendant: boolean): string =>
      found
        .filter((r) => r.id === id && r.attendant === attendant)
        .flatMap((r) => techniqueSays(r, "metric"))
        .join("\n");
    const belayed = says("single-and-structure-belay", false);
    expect(belayed).toMatch(/30\.\d.kN\)? in Belay from the structure/);
    expect(belayed).toMatch(/23\.\d.kN on /);
    expect(belayed).toMatch(/swing 2\.\d\d.m, hits Flood wall at 5\.\d/);
    expect(belayed).toMatch(/Worst of its checks: .*: unknown; over if its brake holds fast/);
    expect(says("two-tension", false)).toMatch(/58.% of its rating/);
    expect(says("two-tension", true)).toMatch(/over its rating, 107.%/);
  });

  it("show from above what a section cannot: return lines led off to a side", () => {
    const of = (id: string) => rows.find(({ row }) => row.id === id && !row.attendant);
    const widest = (id: string): number => {
      const { row, plan: rigged } = of(id) ?? {};
      if (!row || !rigged) throw new Error(`no ${id}`);
      const { above } = drawTechnique(rigged, row, { system: "metric" });
      expect(above.id).toBe("plan");
      return above.bounds.maxX;
    };
    // The ladder stands at the middle, toward north; its anchors 8 m and 11 m to its right.
    expect(widest("return-to-side")).toBeGreaterThan(widest("two-tension") + 5);
  });

  it("draw the belay on over its edge to its brake", () => {
    const when = { stage: 2, along: 0.5 };
    const row = techniques(crossing, when).find((r) => r.id === "single-and-structure-belay");
    const of = row && techniquePlan(crossing, when, row);
    if (!row || !of) throw new Error("no belay");
    expect(row.behindEdge).toHaveLength(1);
    const { rest } = drawTechnique(of, row, { system: "metric" });
    const beyond = rest.primitives.find((p) => p.kind === "path" && p.title === "Belay behind the edge");
    const [edge, brake] = beyond?.kind === "path" ? beyond.points : [];
    const reach = row.behindEdge[0]
      ? Math.hypot(...row.behindEdge[0][0].map((x, i) => x - (row.behindEdge[0]?.[1][i] ?? 0)))
      : 0;
    expect(Math.hypot((edge?.[0] ?? 0) - (brake?.[0] ?? 0), (edge?.[1] ?? 0) - (brake?.[1] ?? 0))).toBeLessThanOrEqual(
      reach + 1e-9,
    );
    expect(reach).toBeGreaterThan(0.2);
  });
});

describe("cuts over the evolution", () => {
  it("ring the highest, cross what falls, and are open where nothing is known", () => {
    const evolution = evolve(crossing);
    const a = first?.id ?? "";
    const cut = (along: number, tipN: number | null, outcome: "held" | "falls" | "unknown" = "held") => ({
      when: { stage: 2, along },
      at: (2 + along) / 6,
      lineId: a,
      outcome,
      tipN,
      slipUnknown: [],
    });
    const cuts = [cut(0, 2000), cut(0.2, 3000), cut(0.4, null, "falls"), cut(0.6, null, "unknown"), cut(0.8, 2500)];
    const chart = cutsCurve(evolution, { cuts }, evaluation.lines, { widthPx: 800, heightPx: 200, system: "metric" });
    expect(texts(chart.primitives).join("\n")).toMatch(/3\.00.kN, Main A goes/);
    expect(chart.primitives.filter((p) => p.kind === "mark" && p.shape === "cross")).toHaveLength(1);
    expect(chart.title).not.toContain("if no brake slips");
    const unheld = { cuts: cuts.map((c) => ({ ...c, slipUnknown: ["main-b"] })) };
    const upper = cutsCurve(evolution, unheld, evaluation.lines, { widthPx: 800, heightPx: 200, system: "metric" });
    expect(upper.title).toContain("if no brake slips");
    const curves = chart.primitives.filter((p) => p.kind === "paths" && p.title === "Main A goes");
    expect(curves.flatMap((p) => (p.kind === "paths" ? p.parts : []))).toHaveLength(2);
    expect(chart.description).toMatch(/5 cuts: highest 3\.00.kN.* In 1 of them nothing holds/);
    expect(notFinite(chart, "chart")).toEqual([]);
  });
});
