import { EXAMPLES, type Plan, vehiclesOf } from "@gantline/plan";
import { memoryPlanStore } from "@gantline/runtime";
import { expect, it } from "vitest";
import { createDesk, deskActions } from "./desk.ts";
import { planShelf } from "./plan-shelf.ts";

const crossingExample = EXAMPLES.find((e) => e.key === "crossing")?.plan;
if (!crossingExample) throw new Error("no such example");
const { aerial } = crossingExample;

const withDevice = (id: string, name: string, example = false): Plan => ({
  ...(crossingExample as Plan),
  aerial: { ...aerial, device: { ...aerial.device, id, name, example } },
});

it("has the department's vehicles from the plans that can be read, of one id the last written, no examples", async () => {
  const store = memoryPlanStore();
  const keep = (id: string, savedAtMs: number, document: unknown) => store.write({ id, name: id, savedAtMs, document });
  await keep("a", 1, withDevice("own-1", "Ladder as it was"));
  await keep("b", 2, withDevice("own-1", "Ladder"));
  await keep("c", 3, withDevice("own-2", "Platform"));
  await keep("d", 4, { version: 1, something: "else" });
  await keep("e", 5, withDevice("example-x", "Invented", true));
  const desk = createDesk("b", withDevice("own-1", "Ladder"));
  const shelf = planShelf(
    desk,
    deskActions(desk),
    store,
    async () => {},
    () => 0,
  );
  const vehicles = await shelf.vehicles();
  expect(vehicles.map((d) => d.name)).toEqual(["Platform", "Ladder"]);
  const offered = vehiclesOf(withDevice("own-2", "Platform, changed"), vehicles).map((d) => d.name);
  expect(offered.slice(0, 2)).toEqual(["Platform, changed", "Ladder"]);
  expect(offered.length).toBeGreaterThan(3);
});
