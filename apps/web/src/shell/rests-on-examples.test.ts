import { EXAMPLES, type Plan } from "@gantline/plan";
import { expect, it } from "vitest";
import { restsOnExamples } from "./rests-on-examples.ts";

const example = EXAMPLES[0]?.plan as Plan;
const real = {
  ...example,
  example: false,
  scene: { ...example.scene, example: false },
  aerial: { ...example.aerial, device: { ...example.aerial.device, example: false } },
  gear: example.gear.map((one) => ({ ...one, example: false })),
};

it("names every part that is invented, and nothing that is not", () => {
  expect(restsOnExamples(example)).toBe("plan, site, vehicle and gear are");
  expect(restsOnExamples({ ...real, scene: example.scene })).toBe("site is");
  expect(restsOnExamples({ ...real, gear: [...real.gear.slice(1), ...example.gear.slice(0, 1)] })).toBe("gear is");
  expect(restsOnExamples(real)).toBe("");
});
