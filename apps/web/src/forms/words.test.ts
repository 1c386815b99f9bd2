import { EXAMPLE_DEVICES, EXAMPLES, pathSteps, ruleAt } from "@gantline/plan";
import { describe, expect, it } from "vitest";
import { fieldQuantity } from "./field-quantity.ts";
import { tabOfField } from "./go-to-field.ts";
import { labelOf } from "./words.ts";

/** Every value of a document with its path. */
function leaves(value: unknown, path = ""): [string, unknown][] {
  if (Array.isArray(value)) return value.flatMap((one, index) => leaves(one, `${path}[${index}]`));
  if (typeof value === "object" && value !== null) {
    return Object.entries(value).flatMap(([key, one]) => leaves(one, path === "" ? key : `${path}.${key}`));
  }
  return [[path, value]];
}

const plans = EXAMPLES.flatMap(({ plan }) =>
  EXAMPLE_DEVICES.map((device) => ({ ...plan, aerial: { ...plan.aerial, device } })),
);
const fields = plans.flatMap((plan) => leaves(plan).map(([path, value]) => ({ plan, path, value })));

describe("what fields are called", () => {
  it("has a plain word for every field, none of them the name in the file", () => {
    const raw = fields
      .map(({ path }) => path)
      .filter((path) => !/(^|\.)id$|^format|jackReach|\]$/.test(path))
      .filter((path) => !/^[A-Z][^A-Z]*( EI| EA.*)?$/.test(labelOf(path)));
    expect([...new Set(raw)]).toEqual([]);
  });

  it("tells a parent's field from its namesake", () => {
    expect(labelOf("aerial.pose.lengthM")).not.toBe(labelOf("rig.mainLines[0].lengthM"));
    expect(labelOf("aerial.place.groundZM")).not.toBe(labelOf("scene.groundZM"));
  });
});

describe("what a field measures", () => {
  it.each([
    ["scene.groundZM", "length"],
    ["aerial.place.turntableX", "length"],
    ["aerial.pose.elevationRad", "angle"],
    ['aerial.jackReach["front-left"]', "ratio"],
    ["rig.mainLines[0].share", "ratio"],
    ["rig.taglines[0].people", "count"],
    ["policy.windMaxMS.value", "speed"],
    ["policy.strengthFactor.value", "ratio"],
    ["policy.personsMax.value", "count"],
    ["aerial.device.sections[0].bendingStiffnessNm2", "bendingStiffness"],
    ["gear[0].staticStiffnessN", "stiffness"],
  ])("%s: %s", (path, quantity) => {
    expect(fieldQuantity(path)).toBe(quantity);
  });

  it("knows a rule for every field there is", () => {
    expect(fields.filter(({ plan, path }) => ruleAt(plan, pathSteps(path)) === null).map(({ path }) => path)).toEqual(
      [],
    );
  });
});

it("finds the form a field is on", () => {
  expect(tabOfField("scene.structures[0].topZM")).toBe("scene");
  expect(tabOfField("aerial.device.tipRating")).toBe("stand");
  expect(tabOfField("gear[3].strengthN")).toBe("rig");
  expect(tabOfField("policy.closeRatio.value")).toBe("policy");
  expect(tabOfField("notes")).toBe("scene");
});
