import { expect, it } from "vitest";
import { evaluate } from "../evaluate.ts";
import { crossingExample } from "../examples/crossing.ts";
import type { Plan } from "../schema/plan.ts";

it("is judged by the larger share of both ways of travel, where the ropes hang the load by their lengths", () => {
  const held = evaluate(crossingExample);
  const mainLines = crossingExample.rig.mainLines.map((line, i) => {
    const whole = held.lines.find((l) => l.id === line.id)?.unstretchedM ?? null;
    return { ...line, lengthM: whole === null ? null : whole - (i === 0 ? 0.03 : 0) };
  });
  const load = { ...crossingExample.rig.load, drive: "length" as const, motion: "rest" as const };
  const taglines = crossingExample.rig.taglines.map((t) => ({ ...t, drive: "tension" as const, tensionN: 200 }));
  const plan: Plan = { ...crossingExample, rig: { ...crossingExample.rig, load, mainLines, taglines } };
  const hung = evaluate(plan);
  expect(hung.cases).toEqual(["raise", "lower"]);
  const shares = hung.cases.map((travel) => {
    const atLoad = hung.lines.filter((l) => l.role === "main").map((l) => l.tensionsN[travel][0] ?? Number.NaN);
    return Math.max(...atLoad) / atLoad.reduce((a, b) => a + b, 0);
  });
  // Sheaves hold the tighter rope back one way more than the other.
  expect(Math.abs((shares[0] ?? 0) - (shares[1] ?? 0))).toBeGreaterThan(1e-4);
  const check = hung.ledger.find((c) => c.id === "sharing");
  expect(check?.demand?.value).toBeCloseTo(Math.max(...shares), 12);
});
