import { expect, test } from "vitest";
import { assessStand } from "./assess-stand.ts";
import { otherReasonAt } from "./other-reason.ts";
import { searchStands } from "./search-stands.ts";
import { isOfLadder, standReasonAt, standStatusAt } from "./stand-at.ts";
import { cellMiddle, standGrid } from "./stand-grid.ts";
import type { StandQuestion } from "./stand-question.ts";
import type { StandReason } from "./stand-reason.ts";
import { evenHeadings, tipHeights, tipPlaces, turnTipPlaces } from "./stand-steps.ts";
import { openYard, randomYard, rectangle } from "./testing/example-question.ts";

const whole = (question: StandQuestion) =>
  searchStands(question, { fromRow: 0, toRow: standGrid(question).rows }) ?? expect.unreachable();

const alike = (a: StandReason, b: StandReason): boolean => a.check === b.check && a.thingId === b.thingId;

/** Rounding, or a reason that two candidates miss by alike. */
const WITHIN = 1e-9;

test("the other reason is that of a candidate tried one by one which the first does not govern, the nearest of these", () => {
  const seen = { besides: 0, otherwise: 0, none: 0 };
  for (const seed of [1, 2, 3, 4, 6, 7, 9, 12, 15, 20, 23, 24, 25, 26, 27, 28, 29, 30]) {
    const question: StandQuestion = {
      ...randomYard(seed),
      steps: { cellM: 8, headings: 4, tipPlaces: 3, tipHeights: 3 },
    };
    const { target, steps } = question;
    const grid = standGrid(question);
    const band = whole(question);
    const tips = tipPlaces(steps.tipPlaces, target.toleranceM);
    for (const i of band.cells.keys()) {
      const first = standReasonAt(question, band, i);
      const other = otherReasonAt(question, band, i);
      if (standStatusAt(band, i) !== "rejected" || first?.check === "offParking") {
        expect(other).toBeNull();
        continue;
      }
      if (first === null) expect.unreachable();
      const turntable = cellMiddle(grid, band.cells[i] as number);
      turnTipPlaces(tips, target.toleranceM, turntable[0] - target.xM, turntable[1] - target.yM);
      const all = [...evenHeadings(steps.headings)].flatMap((headingRad) =>
        [...tips.x].flatMap((x, t) =>
          [...tipHeights(steps.tipHeights, target)].flatMap((z) => {
            const point = [target.xM + x, target.yM + (tips.y[t] as number), z] as const;
            return assessStand(question, { turntable, headingRad, point });
          }),
        ),
      );
      expect(all.every(({ status }) => status === "rejected")).toBe(true);
      const ofOwn = all.filter(({ reason }) => reason && isOfLadder(reason.check) === isOfLadder(first.check));
      const own = ofOwn.filter(({ reason }) => reason && !alike(reason, first));
      if (other === null) {
        seen.none++;
        expect(own).toEqual([]);
        continue;
      }
      expect(alike(other, first)).toBe(false);
      if (isOfLadder(other.check) !== isOfLadder(first.check)) {
        seen.besides++;
        continue;
      }
      seen.otherwise++;
      const least = Math.min(...own.map(({ miss }) => miss));
      const same = own.filter(({ miss, reason }) => miss <= least + WITHIN && reason && alike(reason, other));
      expect(same.length, JSON.stringify({ seed, i, first, other })).toBeGreaterThan(0);
    }
  }
  expect(seen.besides).toBeGreaterThan(20);
  expect(seen.otherwise).toBeGreaterThan(20);
});

test("short of reach from one pose, against the parapet in another", () => {
  // 24 m off, the ladder is too short for the upper heights; lower down it strikes a wall as high as these.
  const wall = { id: "p", name: "Parapet", outline: rectangle(0, 28, 60, 28.3), bottomZM: 0, topZM: 17 };
  const question: StandQuestion = {
    ...openYard,
    obstacles: [wall],
    target: { xM: 30, yM: 32, toleranceM: 0, minZM: 14, maxZM: 22 },
    steps: { cellM: 1, headings: 4, tipPlaces: 1, tipHeights: 5 },
  };
  const band = whole(question);
  const both = [...band.cells.keys()].flatMap((i) => {
    const [first, other] = [standReasonAt(question, band, i), otherReasonAt(question, band, i)];
    return first?.check === "tooLong" && other?.check === "ladderClearance" ? [{ first, other }] : [];
  });
  expect(both.length).toBeGreaterThan(0);
  for (const { first, other } of both) {
    expect(first.shortfall).toBeGreaterThan(0);
    expect(other.thingId).toBe("p");
    expect(other.pose?.lengthM).toBeGreaterThan(0);
  }
});
