import { describe, expect, it } from "vitest";
import { planJsonSchema } from "./plan-json-schema.ts";

interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
  readonly oneOf?: readonly Node[];
}

/** Every named field, wherever it lies. */
function fields(node: Node): (readonly [name: string, field: Node])[] {
  const own = Object.entries(node.properties ?? {});
  const parts = [...own.map(([, field]) => field), ...(node.items ? [node.items] : [])];
  return [...own, ...[...parts, ...(node.anyOf ?? []), ...(node.oneOf ?? [])].flatMap(fields)];
}

const all = fields(planJsonSchema() as Node);
const says = (name: string) => new Set(all.filter(([n]) => n === name).map(([, f]) => f.description));

describe("the schema of a plan file", () => {
  it("says the unit of every amount", () => {
    const isNumber = (f: Node): boolean => f.type === "number" || (f.anyOf?.some(isNumber) ?? false);
    const amounts = all.filter(([name, f]) => isNumber(f) && /[a-z](M|N|Kg|Rad|Pa|Kv|MS|M2|KgM|Nm2|X|Y)$/.test(name));
    expect(amounts.length).toBeGreaterThan(80);
    expect(
      amounts.filter(([, f]) => !f.description?.match(/^(m|N|kg|rad|Pa|kV|m\/s|m²|kg\/m|N·m²)\b|^m²|^N·m²/)),
    ).toEqual([]);
  });

  it("says of each field what belongs to it alone", () => {
    expect(says("turntableX")).toEqual(new Set(["m, east in the site frame"]));
    expect(says("topZM")).toEqual(new Set(["m, up in the site frame"]));
    expect(says("headingRad")).toEqual(new Set(["rad, clockwise from north"]));
    expect(says("elevationMinRad")).toEqual(new Set(["rad"]));
    expect(says("bearingPa")).toEqual(new Set(["Pa; null: not given, and what rests on it is unknown"]));
    expect(says("closeRatio")).toEqual(new Set(["null: not given, and what rests on it is unknown"]));
    expect(says("name")).toEqual(new Set([undefined]));
  });
});
