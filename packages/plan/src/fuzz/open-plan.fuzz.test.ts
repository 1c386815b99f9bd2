import { describe, expect, it } from "vitest";
import { pathSteps } from "../edit/schema-at.ts";
import { evaluate } from "../evaluate.ts";
import { EXAMPLES } from "../examples/all-examples.ts";
import { type ReadPlan, readPlan, readPlanText } from "../read-plan.ts";
import { pathName, valueAt, withValue } from "./json-path.ts";
import { type MutatedPlan, mutatePlan } from "./mutate-plan.ts";
import { unsoundNumbers } from "./unsound-numbers.ts";

const FILES = 5000;
/** Steps of work, as `countWork` counts them, that no plan may need more of. The examples need 30,000. */
const MOST_WORK = 400_000;
/** Working them out is done in so many parts. */
const SHARES = [0, 1, 2, 3, 4];

const PLANS = EXAMPLES.map((e) => e.plan);
const damaged = (seed: number): MutatedPlan => mutatePlan(PLANS[seed % PLANS.length] ?? {}, seed);
const open = ({ text, value }: MutatedPlan): ReadPlan => (text === null ? readPlan(value) : readPlanText(text));

/**
 * Runs something and counts the square roots, angles and list entries it makes: work counted, not timed, so that the
 * same plan counts the same on any machine. Throws where the count goes over the bound, which ends a search without end.
 */
function countWork(run: () => void): number {
  let count = 0;
  const undo: (() => void)[] = [];
  const watch = (holder: object, name: string): void => {
    const was = Reflect.get(holder, name);
    Reflect.set(holder, name, function (this: unknown, ...args: unknown[]) {
      if (++count > MOST_WORK) throw new Error("more work than any plan may need");
      return Reflect.apply(was, this, args);
    });
    undo.push(() => Reflect.set(holder, name, was));
  };
  for (const name of ["hypot", "sqrt", "atan2", "max", "min", "abs"]) watch(Math, name);
  watch(Array.prototype, "push");
  try {
    run();
  } finally {
    for (const put of undo) put();
  }
  return count;
}

/** Whether a problem names something of the file: a field that is there, or one that is missing from something that is there. */
function namesField(path: string, document: unknown): boolean {
  const holder = valueAt(document, pathSteps(path).slice(0, -1));
  return path === "(file)" || (typeof holder === "object" && holder !== null);
}

/** The document a file holds; undefined where its text is no JSON. */
function documentOf({ text, value }: MutatedPlan): unknown {
  if (text === null) return value;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

describe("5,000 damaged plan files", () => {
  const opened: number[] = [];
  const refused: number[] = [];

  it("open, or give errors that name the field", () => {
    const wrong: string[] = [];
    for (let seed = 0; seed < FILES; seed++) {
      const file = damaged(seed);
      const read = open(file);
      (read.ok ? opened : refused).push(seed);
      if (read.ok) continue;
      if (read.problems.length === 0) wrong.push(`seed ${seed}: refused without a reason`);
      for (const { path, got, expected } of read.problems) {
        if (got === "" || expected === "" || /undefined|\[object/.test(`${path}${expected}`))
          wrong.push(`seed ${seed}: ${path}: got ${got}, expected ${expected}`);
      }
      const [first] = read.problems;
      if (first && !namesField(first.path, documentOf(file)))
        wrong.push(`seed ${seed}: ${first.path} is nowhere in the file`);
    }
    expect(wrong).toEqual([]);
    // Both ways are really tried.
    expect(opened.length).toBeGreaterThan(FILES / 4);
    expect(refused.length).toBeGreaterThan(FILES / 4);
  });

  it("name the place that was damaged, where it is only one", () => {
    let tried = 0;
    const wrong: string[] = [];
    for (const seed of refused) {
      const file = damaged(seed);
      const [only] = file.done;
      if (file.text !== null || file.done.length !== 1 || !only) continue;
      tried++;
      const read = open(file);
      if (read.ok) continue;
      // A field that is gone, renamed or of another kind is told at the thing that holds it, or inside it.
      const near = pathName(only.at.slice(0, -1));
      if (!read.problems.every(({ path }) => path.startsWith(near))) {
        wrong.push(
          `seed ${seed}: ${only.what} at ${pathName(only.at)}, told of ${read.problems.map((p) => p.path).join(", ")}`,
        );
      }
    }
    expect(wrong).toEqual([]);
    expect(tried).toBeGreaterThan(200);
  });

  it.each(SHARES)("are worked out to the end, with no number that is none: part %i", (share) => {
    const wrong: string[] = [];
    let most = 0;
    for (const seed of opened.filter((_, i) => i % SHARES.length === share)) {
      const read = open(damaged(seed));
      if (!read.ok) continue;
      try {
        let unsound: readonly string[] = [];
        const work = countWork(() => {
          const evaluation = evaluate(read.plan);
          unsound = unsoundNumbers(evaluation);
        });
        most = Math.max(most, work);
        wrong.push(...unsound.slice(0, 3).map((u) => `seed ${seed}: ${u}`));
      } catch (error) {
        wrong.push(`seed ${seed}: ${error instanceof Error ? error.message : error}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(most).toBeGreaterThan(10_000);
  });
});

describe("found by damage before", () => {
  const [base] = PLANS;
  const roof = base && { ...base, aerial: { ...base.aerial, useSag: true } };
  const sections = roof?.aerial.device.sections ?? [];

  it("a ladder section that bends like a thread is refused: its deflection took ten seconds", () => {
    const at = ["aerial", "device", "sections", 1, "bendingStiffnessNm2"];
    const read = readPlan(withValue(roof, at, 1e-9));
    expect(read.ok || read.problems.map((p) => p.path)).toEqual(["aerial.device.sections[1].bendingStiffnessNm2"]);
    expect(sections.length).toBeGreaterThan(1);
  });
  it("a load that no ladder could bear is worked out without its sag", () => {
    const weak = withValue(
      roof,
      ["aerial", "device", "sections"],
      sections.map((part) => ({ ...part, bendingStiffnessNm2: 1e4 })),
    );
    const read = readPlan(withValue(weak, ["rig", "load", "parts", 0, "massKg"], 1e9));
    if (!read.ok) throw new Error("does not open");
    countWork(() => {
      const evaluation = evaluate(read.plan);
      expect(evaluation.problems.map((p) => p.path)).toEqual(["aerial.useSag"]);
      expect(evaluation.worst.status).toBe("over");
    });
  });
  it("amounts that would overflow are refused", () => {
    for (const value of [1e308, -1e308, Number.NaN, Number.POSITIVE_INFINITY]) {
      const read = readPlan(withValue(roof, ["aerial", "device", "riggingPoints", 1, "dropM"], value));
      expect(read.ok || read.problems).toMatchObject([
        { path: "aerial.device.riggingPoints[1].dropM", got: String(value), unit: "m" },
      ]);
    }
  });
});

describe("mutatePlan", () => {
  it("damages alike for the same seed, and not at all the plan it is given", () => {
    const [plan = {}] = PLANS;
    const before = JSON.stringify(plan);
    for (let seed = 0; seed < 50; seed++) expect(mutatePlan(plan, seed)).toEqual(mutatePlan(plan, seed));
    expect(JSON.stringify(plan)).toBe(before);
    expect(valueAt(plan, ["name"])).toBeTypeOf("string");
  });
});

describe("unsoundNumbers", () => {
  it("finds what it looks for, however deep", () => {
    expect(unsoundNumbers({ a: [1, { b: Number.NaN }], c: Number.POSITIVE_INFINITY, d: "NaN", e: null })).toEqual([
      ".a.1.b is NaN",
      ".c is Infinity",
    ]);
    expect(unsoundNumbers({ a: new Float64Array([1, Number.NaN]) })).toEqual([".a.1 is NaN"]);
  });
});
