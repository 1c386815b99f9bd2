import { describe, expect, it } from "vitest";
import { crossingExample } from "../examples/crossing.ts";
import { pathSteps, ruleAt, valueAt, withValueAt } from "./schema-at.ts";

const rule = (path: string) => ruleAt(crossingExample, pathSteps(path));

describe("ruleAt", () => {
  it("knows what may be unknown", () => {
    expect(rule("scene.wind.gustMS")?.nullable).toBe(true);
    expect(rule("scene.groundZM")?.nullable).toBe(false);
    expect(rule("aerial.jackReach.front-left")?.nullable).toBe(true);
    expect(rule('aerial.jackReach["front.left"]')?.nullable).toBe(true);
  });

  it("knows the words of a choice", () => {
    expect(rule("rig.load.motion")?.options).toEqual(["raise", "lower", "rest"]);
    expect(rule("aerial.device.riggingPoints[0].ratingBasis")?.options).toContain("working");
  });

  it("finds the shape of one kind of gear or anchorage among several", () => {
    const rope = crossingExample.gear.findIndex((one) => one.kind === "rope");
    const knot = crossingExample.gear.findIndex((one) => one.kind === "knot");
    expect(rule(`gear[${rope}].diameterM`)?.nullable).toBe(false);
    expect(rule(`gear[${knot}].diameterM`)).toBeNull();
    expect(rule("rig.mainLines[0].brake.anchorage.anchorId")).not.toBeNull();
  });

  it("says what is expected in the field's quantity", () => {
    expect(rule("aerial.pose.lengthM")?.problem(-1, "length")).toEqual([
      "It must be ",
      "more than ",
      { value: 0, quantity: "length" },
      ".",
    ]);
    expect(rule("aerial.pose.lengthM")?.problem(12, "length")).toBeNull();
    expect(rule("rig.taglines[0].people")?.problem(1.5, "count")).toEqual(["It must be a whole number."]);
    expect(rule("scene.name")?.problem("", null)).toEqual(["Something must be written here."]);
    expect(rule("scene.groundZM")?.problem(null, "length")).toEqual(["A value is needed here."]);
  });

  it("has nothing to say of a path that is not there", () => {
    expect(rule("scene.colour")).toBeNull();
    expect(rule("scene.wind.gustMS.more")).toBeNull();
  });
});

describe("withValueAt", () => {
  it("changes one value and shares the rest", () => {
    const changed = withValueAt(crossingExample, pathSteps("scene.structures[0].topZM"), 9);
    expect(changed.scene.structures[0]?.topZM).toBe(9);
    expect(crossingExample.scene.structures[0]?.topZM).toBe(7);
    expect(changed.scene.structures[1]).toBe(crossingExample.scene.structures[1]);
    expect(changed.rig).toBe(crossingExample.rig);
    expect(valueAt(changed, pathSteps("scene.structures[0].topZM"))).toBe(9);
  });
});
