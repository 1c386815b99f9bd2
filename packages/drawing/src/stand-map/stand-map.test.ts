import {
  STAND_CHECKS,
  STAND_PASSES,
  type StandCheck,
  type StandQuestion,
  type StandReason,
  searchStands,
  standGrid,
  standReasonAt,
  standStatusAt,
} from "@gantline/engine";
import { EXAMPLES, evaluate, standQuestion } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { contrastRatio } from "../contrast.ts";
import { notFinite } from "../fuzz/not-finite.ts";
import { THEMES } from "../theme.ts";
import { cellSays } from "./cell-says.ts";
import { drawStandMap } from "./draw-stand-map.ts";
import { figureContours } from "./figure-contours.ts";
import { figureField, figureLevels, MAP_FIGURES } from "./map-figure.ts";
import { reasonSays } from "./reason-says.ts";
import { fits, standCells } from "./stand-cells.ts";
import { CLASS_OF, FITS, FITS_NOT, REJECTED_CLASSES, UNKNOWN } from "./stand-classes.ts";

const plan = EXAMPLES.find(({ key }) => key === "crossing")?.plan;
if (plan === undefined) throw new Error("no example");
const evaluation = evaluate(plan);
const asked = standQuestion(plan, { steps: { cellM: 1, headings: 8, tipHeights: 4 } });
if (!asked.ok) throw new Error("the example cannot be asked");
const { question } = asked;
const grid = standGrid(question);
const bands = STAND_PASSES.flatMap((pass) => searchStands(question, { fromRow: 0, toRow: grid.rows, pass }) ?? []);
const cells = standCells(grid, [{ question, bands }]);
const all = Array.from({ length: grid.columns * grid.rows }, (_, cell) => cell);

describe("cells of a search", () => {
  it("show a block as its south-west cell until each was looked at itself", () => {
    const coarse = standCells(grid, [{ question, bands: bands.slice(0, 1) }]);
    expect([coarse.complete, cells.complete]).toEqual([false, true]);
    for (const cell of all) {
      const [row, column] = [Math.floor(cell / grid.columns), cell % grid.columns];
      const block = (row - (row % 8)) * grid.columns + column - (column % 8);
      expect(coarse.at(cell)?.band.cells[coarse.at(cell)?.entry ?? -1]).toBe(block);
      expect(cells.at(cell)?.band.cells[cells.at(cell)?.entry ?? -1]).toBe(cell);
    }
    expect(standCells(grid, [{ question, bands: [] }]).at(0)).toBeNull();
  });

  it("say and show that the rating is not yet looked at, whatever figure is shown", () => {
    const later: StandQuestion = { ...question, tipDemand: null, ratingLater: true };
    const band = searchStands(later, { fromRow: 0, toRow: grid.rows }) ?? expect.unreachable();
    const looked = standCells(grid, [{ question: later, bands: [band] }]);
    for (const shown of ["governs", ...MAP_FIGURES] as const) {
      const drawing = drawStandMap(plan, evaluation, looked, { system: "metric", shown });
      const words = drawing.key.map(({ text }) => text);
      expect(words).toContain("rating not yet looked at");
      expect(words).not.toContain(FITS.word);
      expect(words).not.toContain(UNKNOWN.word);
      expect(drawing.description).toContain("the rating is not yet looked at, so none is told to fit");
    }
    for (const entry of band.cells.keys())
      expect(cellSays(later, band, entry, "metric")).toMatch(/^(Does not fit|Not yet told whether it fits)/);
  });

  it("of two questions show the harder, whichever comes first", () => {
    const far: StandQuestion = { ...question, target: { ...question.target, yM: question.target.yM + 8 } };
    const other = {
      question: far,
      bands: [searchStands(far, { fromRow: 0, toRow: grid.rows })].flatMap((b) => b ?? []),
    };
    const both = standCells(grid, [{ question, bands }, other]);
    const turned = standCells(grid, [other, { question, bands }]);
    const alone = standCells(grid, [other]);
    let fewer = 0;
    for (const cell of all) {
      const [one, two] = [cells.at(cell), alone.at(cell)];
      const found = both.at(cell);
      if (!one || !two || !found) throw new Error("a cell is missing");
      expect(fits(found)).toBe(fits(one) && fits(two));
      expect(turned.at(cell)?.band.status[turned.at(cell)?.entry ?? -1]).toBe(found.band.status[found.entry]);
      if (fits(one) && !fits(found)) fewer++;
    }
    expect(fewer).toBeGreaterThan(0);
  });
});

describe("figures on a map", () => {
  // By hand: the room at a place is the distance to the nearest middle of a cell that does not fit, or lies off the grid.
  it("measure the room to be parked off exactly", () => {
    const room = figureField(cells, "room");
    const free = (column: number, row: number): boolean => {
      if (column < 0 || row < 0 || column >= grid.columns || row >= grid.rows) return false;
      const found = cells.at(row * grid.columns + column);
      return found !== null && fits(found);
    };
    for (const cell of all) {
      const [row, column] = [Math.floor(cell / grid.columns), cell % grid.columns];
      expect(Number.isNaN(room[cell])).toBe(!free(column, row));
      if (!free(column, row)) continue;
      let least = Number.POSITIVE_INFINITY;
      for (let y = -1; y <= grid.rows; y++)
        for (let x = -1; x <= grid.columns; x++)
          if (!free(x, y)) least = Math.min(least, Math.hypot(x - column, y - row));
      expect(room[cell]).toBeCloseTo(least * grid.cellM, 9);
    }
  });

  // From memory, elementary: contours of a cone are circles; straight between neighbours the radius is off by cell²/(8 r) at most.
  it("run contours of a cone in circles, and end them where the figure ends", () => {
    const wide = { westM: -20, southM: -20, cellM: 1, columns: 40, rows: 40 };
    const away = Float64Array.from({ length: 1600 }, (_, cell) =>
      Math.hypot((cell % 40) + 0.5 - 20, Math.floor(cell / 40) + 0.5 - 20),
    );
    const half = away.map((r, cell) => (cell % 40 < 20 ? Number.NaN : r));
    const [whole, part] = [away, half].map((field) => figureContours(wide, field, [8, 15]));
    for (const { level, lines } of [...(whole ?? []), ...(part ?? [])]) {
      expect(lines).toHaveLength(1);
      for (const [x, y] of lines.flat())
        expect(Math.abs(Math.hypot(x, y) - level)).toBeLessThan(1 / (8 * level) + 0.02);
    }
    for (const { level, lines } of part ?? []) {
      const xs = lines.flat().map(([x]) => x);
      expect(Math.min(...xs)).toBeGreaterThan(0);
      expect(Math.max(...xs)).toBeCloseTo(level, 1);
    }
  });

  it("step in round figures of the reader's unit", () => {
    const lengths = Float64Array.of(3.1, Number.NaN, 11.9);
    expect(figureLevels(lengths, "length", "metric")).toEqual([4, 6, 8, 10]);
    expect(figureLevels(lengths, "length", "imperial").map((m) => Math.round(m / 0.3048))).toEqual([20, 30]);
    expect(figureLevels(Float64Array.of(0.5, 1.3), "angle", "metric").map((r) => (r * 180) / Math.PI)).toEqual(
      [30, 40, 50, 60, 70].map((degrees) => expect.closeTo(degrees, 9)),
    );
    expect(figureLevels(Float64Array.of(2, 2, Number.NaN), "length", "metric")).toEqual([]);
  });
});

describe("the map", () => {
  it.each(["metric", "imperial"] as const)("draws every figure finitely, each kind in the key, in %s", (system) => {
    for (const shown of ["governs", ...MAP_FIGURES] as const) {
      const drawn = drawStandMap(plan, evaluation, cells, {
        system,
        shown,
        marked: [{ number: 1, turntable: [0, 0], headingRad: 1 }],
      });
      expect(notFinite(drawn, "drawing")).toEqual([]);
      const areas = drawn.primitives.flatMap((p) => (p.kind === "paths" && p.closed && p.title ? [p.title] : []));
      for (const { text } of drawn.key) expect(areas).toContain(text);
    }
  });

  it("colours as much ground as the cells cover that lie on parking ground", () => {
    const drawn = drawStandMap(plan, evaluation, cells, { system: "metric", shown: "governs" });
    const words = new Set([FITS, UNKNOWN, ...REJECTED_CLASSES].map(({ word }) => word));
    let area = 0;
    for (const p of drawn.primitives) {
      if (p.kind !== "paths" || !words.has(p.title ?? "")) continue;
      for (const ring of p.parts)
        ring.forEach(([x, y], i) => {
          const [a, b] = ring[(i + 1) % ring.length] as readonly [number, number];
          area += (x * b - a * y) / 2;
        });
    }
    const on = all.filter((cell) => {
      const found = cells.at(cell);
      return found && standReasonAt(question, found.band, found.entry)?.check !== "offParking";
    });
    expect(area).toBeCloseTo(on.length * grid.cellM ** 2, 6);
  });

  it("tells every kind by a pattern that no other has", () => {
    const patterns = [FITS, UNKNOWN, ...REJECTED_CLASSES].map(({ style }) => style.hatch ?? "plain");
    expect(new Set(patterns).size).toBe(patterns.length);
    for (const check of STAND_CHECKS.slice(1) as StandCheck[]) {
      const one = CLASS_OF[check];
      if (one !== null) expect(REJECTED_CLASSES).toContain(one);
    }
  });

  it("keeps figures readable on every tint: 7 to 1 by day and by night", () => {
    for (const theme of Object.values(THEMES)) {
      for (const { style } of [
        FITS,
        UNKNOWN,
        FITS_NOT,
        ...REJECTED_CLASSES,
        { style: { fill: "accent", fillOpacity: 0.28 } },
      ] as const) {
        const ground = mixed(theme[style.fill ?? "paper"], theme.paper, style.fillOpacity ?? 1);
        expect(contrastRatio(theme.ink, ground)).toBeGreaterThanOrEqual(7);
      }
    }
  });
});

const mixed = (over: string, under: string, share: number): string => {
  const part = (hex: string, k: number) => Number.parseInt(hex.slice(1 + 2 * k, 3 + 2 * k), 16);
  return `#${[0, 1, 2]
    .map((k) =>
      Math.round(share * part(over, k) + (1 - share) * part(under, k))
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
};

describe("sentences", () => {
  const things = {
    parking: [
      { id: "p", name: "Yard", outline: [], plane: question.parking[0]?.plane ?? { origin: [0, 0, 0] as const } },
    ],
    keepOuts: [{ id: "k", name: "Grating", outline: [] }],
    bodyObstacles: [],
    obstacles: [{ id: "o", name: "Parapet", outline: [], bottomZM: 0, topZM: 9 }],
    wires: [],
  } as unknown as StandQuestion;
  const says = (
    check: StandCheck,
    value: number | null,
    limit: number | null,
    unit: "m" | "rad" | "N",
    thingId: string | null,
    told: Partial<Pick<StandReason, "pose" | "clears">> = {},
  ) =>
    reasonSays(
      things,
      {
        check,
        value,
        limit,
        unit,
        shortfall: value === null || limit === null ? null : Math.abs(value - limit),
        thingId,
        pose: null,
        clears: null,
        ...told,
      },
      "metric",
    ).replaceAll("\u202f", " ");

  it("say why not and by how much", () => {
    expect(says("tooLong", 25.2, 24.4, "m", null)).toBe(
      "0.80 m short of reach: the ladder would be 25.20 m long; 24.40 m is its longest.",
    );
    expect(says("ladderClearance", 0.2, 0.6, "m", "o")).toBe(
      "The ladder comes 0.20 m from Parapet; 0.60 m is to be kept, 0.40 m more.",
    );
    expect(says("ladderClearance", 0, 0.6, "m", "o")).toBe("The ladder meets Parapet; 0.60 m is to be kept.");
    const pose = { bearingRad: 0, elevationRad: (70 * Math.PI) / 180, lengthM: 24.4 };
    expect(says("ladderClearance", 0, 0.6, "m", "o", { pose, clears: { byM: 1.3, way: "higher" } })).toBe(
      "At 70.0°, 24.40 m long: the ladder meets Parapet; 0.60 m is to be kept. It would keep that 1.30 m higher up.",
    );
    expect(says("rating", 3500.001, 3500, "N", null)).toMatch(/, less than 0\.01 kN too much\.$/);
    expect(says("tooLong", 24.4001, 24.4, "m", null)).toMatch(/^less than 0\.01 m short of reach/);
    expect(says("rating", 4200, 3500, "N", null)).toBe(
      "The tip would bear 4.20 kN; 3.50 kN of its rating may be used there, 0.70 kN too much.",
    );
    expect(says("rating", 4200, null, "N", null)).toBe(
      "Not known: what the tip may bear at this pose, where it would bear 4.20 kN.",
    );
  });

  it("are there for every check, known or not, and hold no gap", () => {
    for (const check of STAND_CHECKS.slice(1) as StandCheck[])
      for (const [value, limit] of [
        [1, 2],
        [null, 2],
        [1, null],
        [null, null],
      ] as const)
        expect(says(check, value, limit, "m", null)).toMatch(/^(Not known: )?[^{}]*[a-z][^{}]*\.$/);
  });

  it("say of every cell of the example whether it fits", () => {
    for (const cell of all) {
      const found = cells.at(cell);
      if (!found) throw new Error("a cell is missing");
      const sentence = cellSays(question, found.band, found.entry, "imperial");
      expect(sentence).not.toMatch(/NaN|undefined|null|unknown/);
      expect(sentence.startsWith("Vehicle and ladder fit")).toBe(standStatusAt(found.band, found.entry) === "feasible");
    }
  });
});
