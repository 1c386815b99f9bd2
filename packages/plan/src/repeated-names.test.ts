import { describe, expect, it } from "vitest";
import { crossingExample } from "./examples/crossing.ts";
import { readPlanText, writePlanText } from "./read-plan.ts";
import { repeatedNames } from "./repeated-names.ts";

const paths = (text: string): readonly string[] => repeatedNames(text).map((problem) => problem.path);

it("keeps a plan whose field stands twice from being opened with one of them lost", () => {
  const text = writePlanText(crossingExample).replace('"notes": ', '"notes": "first", "notes": ');
  const read = readPlanText(text);
  expect(read).toEqual({
    ok: false,
    problems: [{ path: "notes", got: "the same name more than once", expected: "each name once" }],
  });
  expect(readPlanText(writePlanText(crossingExample)).ok).toBe(true);
});

// RFC 8259, section 4: names within an object should be unique; what a reader does with others is not foreseeable.
describe("repeatedNames", () => {
  it("names each that stands more than once in its object, by its path", () => {
    expect(paths('{"a":1,"b":2,"a":3,"a":4}')).toEqual(["a"]);
    expect(paths('{"lines":{"M":{},"T":{"x":[1,{"y":1,"y":2}]},"M":{}}}')).toEqual(["lines.T.x[1].y", "lines.M"]);
    expect(paths('[{"nodes":{}},{"nodes":{},"nodes":{}},[[{"q":0,"q":0}]]]')).toEqual(["[1].nodes", "[2][0][0].q"]);
  });

  it("knows the same name written in another way", () => {
    expect(paths('{"M":1,"\\u004d":2}')).toEqual(["M"]);
    expect(paths('{"a\\"b":1,"a\\u0022b":2}')).toEqual(['a"b']);
  });

  it("takes no value for a name, no mark inside text for a mark, and the same name in two objects for two", () => {
    for (const text of [
      '{"a":"a","b":["a","a"],"c":{"a":"{","d":"a,\\"a\\":"}}',
      '[{"a":1},{"a":1}]',
      '{"a":{"a":{"a":"a"}}}',
      ' [ "x" , "x" , 1 , null , true ] ',
      '"a"',
      "{}",
    ]) {
      expect(JSON.parse(text)).toBeDefined();
      expect(paths(text)).toEqual([]);
    }
  });

  it("bears any depth and length that a parser bears", () => {
    const deep = 5000;
    expect(paths(`${'{"a":'.repeat(deep)}1${"}".repeat(deep)}`)).toEqual([]);
    expect(paths(`{"a":"${"\\\\".repeat(200_000)}","a":1}`)).toEqual(["a"]);
  });
});
