import { expect, it } from "vitest";
import { exampleLine } from "./example-line.ts";
import { EXAMPLES } from "./examples/all-examples.ts";
import { asReal } from "./fuzz/as-real.ts";
import type { Plan } from "./schema/plan.ts";

it("names every part that is invented, and nothing that is not", () => {
  const example = EXAMPLES[0]?.plan as Plan;
  const real = asReal(example);
  expect(exampleLine(example)).toBe("Example data, invented: the plan, the vehicle, the scene, gear.");
  expect(exampleLine({ ...real, scene: example.scene })).toBe("Example data, invented: the scene.");
  const gear = [...real.gear.slice(1), ...example.gear.slice(0, 1)];
  expect(exampleLine({ ...real, gear })).toBe("Example data, invented: gear.");
  expect(exampleLine(real)).toBeNull();
});
