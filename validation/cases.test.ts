import { describe, expect, it } from "vitest";
import { auditCase } from "./audit-case.ts";
import { runCase } from "./run-case.ts";
import { allowedOf, loadGroups, type ValidationCase } from "./validation-case.ts";
import { isMet, isWithin, writeDocument } from "./write-document.ts";

const GROUPS = loadGroups();
const CASES = GROUPS.flatMap((g) => g.cases);

const named = (filter: (wanted: ValidationCase) => boolean) =>
  CASES.filter(filter).map((wanted) => [wanted.id, wanted] as const);

describe.each(GROUPS.map((g) => [g.title, g.cases] as const))("%s", (_title, cases) => {
  const sound = cases.filter((c) => c.misprint === undefined).map((c) => [c.id, c] as const);

  it.each(sound)("%s: the expected values obey an identity of their own", (_id, wanted) => {
    const misfits = auditCase(wanted);
    expect(misfits.length).toBeGreaterThan(0);
    expect(misfits.filter((m) => !(m.misfit <= m.allowed))).toEqual([]);
  });

  it.each(sound)("%s: the product answers them", (_id, wanted) => {
    const ways = runCase(wanted);
    expect(ways.length).toBeGreaterThan(0);
    for (const { way, values } of ways) {
      for (const e of wanted.expected) {
        const got = values[e.quantity] ?? Number.NaN;
        expect(Math.abs(got - e.value), `${e.quantity} by ${way}: ${got}, expected ${e.value}`).toBeLessThanOrEqual(
          allowedOf(wanted, e),
        );
      }
    }
  });
});

describe("published values shown to be wrong", () => {
  it.each(named((c) => c.misprint !== undefined))(
    "%s fails its audit, and the product does not follow it",
    (_id, wanted) => {
      expect(auditCase(wanted).some((m) => m.misfit > m.allowed)).toBe(true);
      expect(isMet(wanted)).toBe(false);
    },
  );
});

describe("the cases themselves", () => {
  it("each have an id of their own, a source, a reason for the tolerance and an audit in words", () => {
    expect(new Set(CASES.map((c) => c.id)).size).toBe(CASES.length);
    for (const c of CASES) {
      expect(c.source.document, c.id).toMatch(/\w/);
      expect(c.source.where, c.id).toMatch(/\w/);
      expect(["read", "secondary", "memory", "computed"], c.id).toContain(c.source.seen);
      expect(c.toleranceReason, c.id).toMatch(/\w/);
      expect(c.audit, c.id).toMatch(/\w/);
      expect(c.expected.length, c.id).toBeGreaterThan(0);
      for (const e of c.expected) {
        expect(allowedOf(c, e), `${c.id} ${e.quantity}`).toBeGreaterThan(0);
        // A tolerance as wide as the value would let anything pass. A value of nothing has none to compare with.
        if (e.value !== 0 && c.id !== "pulley-180")
          expect(allowedOf(c, e), `${c.id} ${e.quantity}`).toBeLessThan(0.1 * Math.abs(e.value));
      }
    }
  });

  /** The product's answers, off by a little more than each tolerance: the comparison must see it. */
  it("would fail with answers a little more than the tolerance off", () => {
    for (const c of CASES.filter((one) => one.misprint === undefined)) {
      for (const e of c.expected) {
        const values = { [e.quantity]: e.value + 1.01 * allowedOf(c, e) };
        expect(isWithin(c, e, { way: "wrong", values })).toBe(false);
      }
    }
  });
});

describe("docs/validation.md", () => {
  it("is the same text each time, with nothing unmet and no number that is none", () => {
    const text = writeDocument(GROUPS);
    expect(writeDocument(loadGroups())).toBe(text);
    expect(text).toContain(`${CASES.length} cases: `);
    expect(text).toContain(" 0 not met");
    expect(text).not.toMatch(/NaN|undefined|https?:|\[object/);
    for (const { id } of CASES) expect(text).toContain(`\`${id}\``);
  });
});
