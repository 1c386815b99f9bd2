import { describe, expect, it } from "vitest";
import { lendFloats, lentFloats, takeBack } from "./lent-floats.ts";

describe("arrays that are lent", () => {
  it("are zeros, each to one borrower, and used again only when taken back", () => {
    const before = lentFloats();
    const [a, b] = [lendFloats(5), lendFloats(5)];
    expect(a).not.toBe(b);
    a.fill(1);
    b.fill(2);
    const inner = lentFloats();
    const c = lendFloats(5);
    expect([a, b]).not.toContain(c);
    c.fill(3);
    takeBack(inner);
    const d = lendFloats(5);
    expect(d).toBe(c);
    expect([...d]).toEqual([0, 0, 0, 0, 0]);
    expect([...a, ...b]).toEqual([1, 1, 1, 1, 1, 2, 2, 2, 2, 2]);
    takeBack(before);
    expect(lentFloats()).toBe(before);
    expect(lendFloats(3)).toHaveLength(3);
    takeBack(before);
  });
});
