import { describe, expect, it } from "vitest";
import { withKept } from "./keep-closures.ts";

/** Runs a module's body that returns something, with a keeper that notes what it is given. */
function run(code: string): { readonly result: unknown; readonly kept: readonly (() => unknown)[] } {
  const kept: (() => unknown)[] = [];
  const keep = (place: number, made: () => unknown) => {
    kept[place] ??= made;
    return made;
  };
  return { result: new Function("keep$", `${code}\nreturn result();`)(keep), kept };
}

const MODULE = `
const twice = (x) => 2 * x;
function result() {
  const add = (a) => (b) => a + b;
  const object = { plain: (x) => x + 1, method() { return [1, 2].map((x) => x * 3); }, get six() { return 6; } };
  class Counter { from = () => 10; next() { return [this].map((it) => it.from() + 1)[0]; } }
  const list = [3, 1, 2].sort((a, b) => a - b).map(function half(x) { return twice(x) / 4; });
  const made = ((x) => x)(7) ?? (() => 8);
  return [add(1)(2), object.plain(1), object.method(), object.six, new Counter().next(), list, made, (async () => 1)() instanceof Promise];
}
`;

describe("functions made inside functions", () => {
  it("do the same, and the first of each place is kept", () => {
    const { text, found } = withKept(MODULE, 0);
    const after = run(text);
    expect(after.result).toEqual(run(MODULE).result);
    expect(after.result).toEqual([3, 2, [3, 6], 6, 11, [0.5, 1, 1.5], 7, true]);
    // All but the last, which is never made.
    expect(found).toBe(10);
    expect(after.kept.filter((one) => typeof one === "function")).toHaveLength(found - 1);
  });

  it("are told from those that are made once, and from methods", () => {
    expect(withKept("const once = (x) => x; export function also() { return once(1); }", 0).found).toBe(0);
    expect(withKept("function f() { return { m() {}, get g() { return 1; } }; }", 0).found).toBe(0);
  });

  it("are numbered on from module to module, whatever stands before them", () => {
    const { text } = withKept("function f() { return()=>[(x)=>x,(y)=>y]; }", 5);
    expect(text).toBe("function f() { return keep$(5, ()=>[ keep$(6, (x)=>x), keep$(7, (y)=>y)]); }");
  });
});
