import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Check } from "../check.ts";
import { evaluate } from "../evaluate.ts";
import { evolve } from "../evolve/evolve.ts";
import { readPlanText } from "../read-plan.ts";
import { PLAN_VERSION } from "../schema/plan.ts";

/** Frozen plan files of each format version, with the ledger they had when they were written. `scripts/freeze-ledgers.ts` writes the ledgers. */
const FOLDER = new URL("../../fixtures/", import.meta.url);
const textOf = (file: string): string => readFileSync(new URL(file, FOLDER), "utf8");
const PLANS = readdirSync(FOLDER)
  .filter((file) => /^v\d+-[a-z]+\.json$/.test(file))
  .sort();
const versionOf = (file: string): number => Number(/^v(\d+)/.exec(file)?.[1]);

/** The same on another machine or Node, whose sine may differ in the last place. */
const SAME = 1e-9;

/** A sweep may look at other moments where a sine differs in the last place; it finds each worst ratio to within 1 %. */
const SWEPT_SAME = 0.01;
const FIRST_WITH_STAGES = 2;

/** A rule that came later may add to the ledger; nothing that was judged may be judged otherwise, or no longer. */
function compare(ledger: readonly Check[], file: string, within: number): void {
  const expected: Pick<Check, "id" | "status" | "ratio">[] = JSON.parse(textOf(file));
  expect(expected.length).toBeGreaterThan(50);
  const now = new Map(ledger.map((check) => [check.id, check]));
  for (const { id, status, ratio } of expected) {
    const check = now.get(id);
    expect(check?.status, id).toBe(status);
    if (ratio === null) expect(check?.ratio, id).toBeNull();
    else expect(Math.abs((check?.ratio ?? Number.NaN) - ratio), id).toBeLessThanOrEqual(within * Math.max(1, ratio));
  }
}

describe("a plan file of any version so far", () => {
  it("is kept for each version", () => {
    const versions = Array.from({ length: PLAN_VERSION }, (_, i) => i + 1);
    expect([...new Set(PLANS.map(versionOf))]).toEqual(versions);
    for (const version of versions)
      expect(PLANS.filter((file) => versionOf(file) === version).length).toBeGreaterThanOrEqual(2);
  });

  it.each(PLANS)("%s opens and gives its old answers", (file) => {
    const read = readPlanText(textOf(file));
    if (!read.ok)
      throw new Error(read.problems.map((p) => `${p.path}: got ${p.got}, expected ${p.expected}`).join("; "));
    expect(read.migratedFrom).toBe(versionOf(file) < PLAN_VERSION ? versionOf(file) : null);
    compare(evaluate(read.plan).ledger, file.replace(".json", ".ledger.json"), SAME);
  });

  it.each(PLANS.filter((file) => versionOf(file) >= FIRST_WITH_STAGES))("%s keeps its evolution", (file) => {
    const read = readPlanText(textOf(file));
    if (!read.ok) throw new Error(file);
    expect(read.plan.evolution.stages.length).toBeGreaterThan(1);
    compare(evolve(read.plan).ledger, file.replace(".json", ".evolution.json"), SWEPT_SAME);
  });
});
