import fc from "fast-check";
import { expect, it } from "vitest";
import { beginHistory, MOST_STEPS, record, redo, undo } from "./history.ts";

it("undoes to where it began and redoes to where it was, whatever was done", () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 1e6 }), { maxLength: 40 }), (steps) => {
      let history = steps.reduce((one, step) => record(one, step), beginHistory(0));
      for (const _ of steps) history = undo(history);
      expect(history.present).toBe(0);
      for (const _ of steps) history = redo(history);
      expect(history.present).toBe(steps.at(-1) ?? 0);
    }),
    { seed: 5 },
  );
});

it("makes one step of a drag, back to where the drag began", () => {
  const dragged = { ...beginHistory(0), present: 7 };
  expect(undo(record(dragged, 9, 0)).present).toBe(0);
  expect(record(dragged, 0, 0)).toEqual(beginHistory(0));
});

it("forgets what was undone once something new is done", () => {
  const history = record(undo(record(beginHistory(1), 2)), 3);
  expect(redo(history).present).toBe(3);
  expect(undo(history).present).toBe(1);
});

it("lets the oldest steps go", () => {
  let history = beginHistory(0);
  for (let step = 1; step <= MOST_STEPS + 50; step++) history = record(history, step);
  expect(history.past).toHaveLength(MOST_STEPS);
});
