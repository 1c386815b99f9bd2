import { polygonArea } from "@gantline/engine";
import fc from "fast-check";
import polygonClipping from "polygon-clipping";
import { expect, it } from "vitest";
import { cellAreas } from "./cell-areas.ts";

const grids = fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 })).chain(([columns, rows]) =>
  fc.record({
    columns: fc.constant(columns),
    kinds: fc.array(fc.integer({ min: -1, max: 2 }), { minLength: columns * rows, maxLength: columns * rows }),
  }),
);

/** Anticlockwise positive. */
const turned = (ring: readonly (readonly [number, number])[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [a, b] = ring[(i + 1) % ring.length] as readonly [number, number];
    return sum + (x * b - a * y) / 2;
  }, 0);

// Against a general-purpose polygon library: the union of the kind's cells, as the even-odd sum of the rings found.
it("outlines exactly the cells of each kind, holes turned the other way, corners only", () => {
  fc.assert(
    fc.property(grids, ({ columns, kinds }) => {
      const areas = cellAreas(kinds, columns);
      expect(areas.map(({ kind }) => kind)).toEqual([...new Set(kinds.filter((k) => k >= 0))].sort());
      for (const { kind, rings } of areas) {
        const cells = kinds.flatMap((k, cell): [number, number][][] => {
          if (k !== kind) return [];
          const [x, y] = [cell % columns, Math.floor(cell / columns)];
          return [
            [
              [x, y],
              [x + 1, y],
              [x + 1, y + 1],
              [x, y + 1],
            ],
          ];
        });
        const [first, ...others] = cells.map((ring) => [ring]);
        const union = polygonClipping.union(first as [number, number][][], ...others);
        const found = rings.map((ring) => [ring.map(([x, y]): [number, number] => [x, y])]);
        const [one, ...more] = found;
        const summed = polygonClipping.xor(one as [number, number][][], ...more);
        expect(polygonClipping.xor(summed, union)).toEqual([]);
        expect(rings.reduce((sum, ring) => sum + turned(ring), 0)).toBe(cells.length);
        for (const ring of rings) {
          expect(Math.abs(turned(ring))).toBe(polygonArea(ring));
          for (const [i, [x, y]] of ring.entries()) {
            const [a, b] = ring.at(i - 1) as readonly [number, number];
            const [c, d] = ring[(i + 1) % ring.length] as readonly [number, number];
            expect((x - a) * (d - y) - (c - x) * (y - b)).not.toBe(0);
          }
        }
      }
    }),
    { seed: 20261125, numRuns: 200 },
  );
});
