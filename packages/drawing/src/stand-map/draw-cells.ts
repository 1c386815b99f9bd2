import { STAND_CHECKS, type StandGrid, standStatusAt } from "@gantline/engine";
import { type UnitSystem, writeAmount, writeRatio } from "@gantline/plan";
import type { Hatch, KeyEntry, Primitive, WorldPoint } from "../primitives.ts";
import { cellAreas } from "./cell-areas.ts";
import { figureContours } from "./figure-contours.ts";
import { figureField, figureLevels, levelOf, MAP_FIGURE_WORDS, type MapFigure } from "./map-figure.ts";
import type { StandCells, StandFound } from "./stand-cells.ts";
import { CLASS_OF, FITS, FITS_NOT, RATING_LATER, REJECTED_CLASSES, type StandClass, UNKNOWN } from "./stand-classes.ts";

/** What a map shows: what governs each place, or one figure where it fits. */
export type MapShown = "governs" | MapFigure;

export interface DrawnCells {
  readonly primitives: readonly Primitive[];
  readonly key: readonly KeyEntry[];
}

/** The cells as areas, each kind with its own pattern and its name where there is room; over a figure its contours. */
export function drawCells(cells: StandCells, shown: MapShown, system: UnitSystem): DrawnCells {
  return shown === "governs" ? drawGoverning(cells) : drawFigure(cells, shown, system);
}

function drawGoverning(cells: StandCells): DrawnCells {
  const classes = [FITS, UNKNOWN, RATING_LATER, ...REJECTED_CLASSES];
  return drawClasses(cells.grid, classes, (cell) => {
    const found = cells.at(cell);
    return found === null ? null : classOf(found);
  });
}

function drawFigure(cells: StandCells, figure: MapFigure, system: UnitSystem): DrawnCells {
  const { quantity, word, moreIsBetter } = MAP_FIGURE_WORDS[figure];
  const write = (value: number): string =>
    quantity === "ratio" ? writeRatio(value) : writeAmount({ value, quantity }, system);
  const field = figureField(cells, figure);
  const levels = figureLevels(field, quantity, system);
  const steps = levels.map((_, k) => k).concat(levels.length);
  const tints = steps.map((k): StandClass => {
    const [from, to] = [levels[k - 1], levels[k]];
    const range =
      from !== undefined && to !== undefined
        ? `${write(from)} to ${write(to)}`
        : from !== undefined
          ? `${write(from)} or more`
          : to !== undefined
            ? `below ${write(to)}`
            : "the same everywhere";
    const share = levels.length === 0 ? 1 : k / levels.length;
    return { id: `step${k}`, word: `${word}: ${range}`, style: tint(moreIsBetter ? share : 1 - share) };
  });
  const classes = [...tints, UNKNOWN, RATING_LATER, FITS_NOT];
  const areas = drawClasses(cells.grid, classes, (cell) => {
    const value = field[cell] ?? Number.NaN;
    if (!Number.isNaN(value)) return tints[levelOf(levels, value)] ?? null;
    const found = cells.at(cell);
    const kind = found === null ? null : classOf(found);
    return kind === null || NOT_TOLD.includes(kind) ? kind : kind === FITS ? null : FITS_NOT;
  });
  const named = { ...areas, primitives: areas.primitives.filter(isShownOverFigure) };
  if (!cells.complete) return named;
  return { ...named, primitives: [...named.primitives, ...drawContours(cells.grid, field, levels, write)] };
}

const NOT_TOLD: readonly StandClass[] = [UNKNOWN, RATING_LATER];

/** Areas of a figure bear no names but where it is not told. */
const isShownOverFigure = (p: Primitive): boolean => p.kind !== "text" || NOT_TOLD.some(({ word }) => p.text === word);

/** The better, the darker and the closer its lines. */
function tint(share: number): StandClass["style"] {
  const hatch = `tint${1 + Math.round(5 * share)}` as Hatch;
  return {
    stroke: "accent",
    widthPx: 0.5,
    fill: "accent",
    fillOpacity: 0.05 + 0.23 * share,
    hatch,
    hatchTone: "accent",
  };
}

function classOf({ question, band, entry }: StandFound): StandClass | null {
  const status = standStatusAt(band, entry);
  if (status !== "rejected") return status === "feasible" ? FITS : question.ratingLater ? RATING_LATER : UNKNOWN;
  const check = STAND_CHECKS[band.check[entry] ?? 0] ?? "none";
  return check === "none" ? null : CLASS_OF[check];
}

function drawClasses(
  grid: StandGrid,
  classes: readonly StandClass[],
  classAt: (cell: number) => StandClass | null,
): DrawnCells {
  const { columns, rows, westM, southM, cellM } = grid;
  const indexOf = new Map(classes.map((one, k) => [one, k]));
  const kinds = Int8Array.from({ length: columns * rows }, (_, cell) => {
    const one = classAt(cell);
    return one === null ? -1 : (indexOf.get(one) ?? -1);
  });
  const toWorld = ([x, y]: WorldPoint): WorldPoint => [westM + x * cellM, southM + y * cellM];
  const areas = cellAreas(kinds, columns);
  const depths = depthsOf(kinds, columns);
  return {
    primitives: [
      ...areas.map(({ kind, rings }): Primitive => {
        const { word, style } = classes[kind] as StandClass;
        return { kind: "paths", parts: rings.map((ring) => ring.map(toWorld)), closed: true, style, title: word };
      }),
      ...areas.flatMap(({ kind }) => nameOf(grid, classes[kind] as StandClass, kind, kinds, depths)),
    ],
    key: areas.map(({ kind }) => {
      const { word, style } = classes[kind] as StandClass;
      return { style, text: word, area: true };
    }),
  };
}

/** An area is named where it is widest, if it is this wide there, m. */
const NAMED_FROM_M = 1.6;

/** What a letter of a name takes up on the ground at a usual scale, some of it outside the area, m. */
const LETTER_M = 0.4;

function nameOf(
  { columns, westM, southM, cellM }: StandGrid,
  { word, style }: StandClass,
  kind: number,
  kinds: ArrayLike<number>,
  depths: Uint16Array,
): readonly Primitive[] {
  let deepest = 0;
  for (let cell = 1; cell < depths.length; cell++)
    if (kinds[cell] === kind && (kinds[deepest] !== kind || (depths[cell] ?? 0) > (depths[deepest] ?? 0)))
      deepest = cell;
  const wideM = 2 * (depths[deepest] ?? 0) * cellM;
  if (wideM < NAMED_FROM_M) return [];
  return [
    {
      kind: "text",
      at: [westM + ((deepest % columns) + 0.5) * cellM, southM + (Math.floor(deepest / columns) + 0.5) * cellM],
      text: word,
      align: "middle",
      offsetPx: [0, 4],
      sizePx: 12,
      tone: style.fill ?? "ink",
      weight: "strong",
      halo: true,
      // A name that has room stays where it is: moved, it would lie on what it does not name.
      ...(wideM < LETTER_M * word.length ? { label: { priority: 58 } } : {}),
    },
  ];
}

/** How many cells from each is the nearest of another kind or the grid's edge, across or aslant? */
function depthsOf(kinds: ArrayLike<number>, columns: number): Uint16Array {
  const rows = columns > 0 ? kinds.length / columns : 0;
  const depths = new Uint16Array(kinds.length);
  const sweep = (row: number, column: number, from: readonly (readonly [number, number])[], most: number): void => {
    const cell = row * columns + column;
    let depth = most;
    for (const [dx, dy] of from) {
      const [x, y] = [column + dx, row + dy];
      const other = y * columns + x;
      const same = x >= 0 && y >= 0 && x < columns && y < rows && kinds[other] === kinds[cell];
      depth = Math.min(depth, same ? (depths[other] ?? 0) + 1 : 1);
    }
    depths[cell] = depth;
  };
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) sweep(row, column, BEFORE, 9999);
  for (let row = rows - 1; row >= 0; row--)
    for (let column = columns - 1; column >= 0; column--)
      sweep(row, column, AFTER, depths[row * columns + column] ?? 0);
  return depths;
}

const BEFORE = [
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
] as const;
const AFTER = BEFORE.map(([dx, dy]) => [-dx, -dy] as const);

function drawContours(
  grid: StandGrid,
  field: Float64Array,
  levels: readonly number[],
  write: (value: number) => string,
): readonly Primitive[] {
  return figureContours(grid, field, levels).flatMap(({ level, lines }): Primitive[] => {
    const longest = lines.reduce<readonly WorldPoint[]>((best, line) => (line.length > best.length ? line : best), []);
    const middle = longest[Math.floor(longest.length / 2)];
    if (middle === undefined) return [];
    return [
      {
        kind: "paths",
        parts: lines,
        closed: false,
        style: { stroke: "ink", widthPx: 1.3 },
        title: write(level),
      },
      {
        kind: "text",
        at: middle,
        text: write(level),
        align: "middle",
        offsetPx: [0, 4],
        sizePx: 13,
        tone: "ink",
        weight: "strong",
        halo: true,
        label: { priority: 62 },
      },
    ];
  });
}
