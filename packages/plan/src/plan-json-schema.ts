import * as z from "zod/mini";
import { planSchema } from "./schema/plan.ts";

type Schema = Record<string, unknown>;

/** JSON Schema (draft 2020-12) of a plan file, from the one schema everything else uses; amounts and places say their unit and axes. */
export function planJsonSchema(): Schema {
  // As text and back: where one part serves many fields, each gets its own words.
  const schema = JSON.parse(JSON.stringify(z.toJSONSchema(planSchema))) as Schema;
  describe(schema);
  return { title: "Gantline plan", ...schema };
}

const COMPASS = "rad, clockwise from north";

/** Units by the ending of a field's name (docs/conventions.md), the longer ending first. */
const UNITS: readonly (readonly [ending: string, says: string])[] = [
  ["KgM", "kg/m"],
  ["earingRad", COMPASS],
  ["headingRad", COMPASS],
  ["Nm2", "N·m²"],
  ["StiffnessN", "N, force ÷ strain"],
  ["M2", "m²"],
  ["MS", "m/s"],
  ["Pa", "Pa"],
  ["Kv", "kV"],
  ["Kg", "kg"],
  ["Rad", "rad"],
  ["ZM", "m, up in the site frame"],
  ["turntableX", "m, east in the site frame"],
  ["turntableY", "m, north in the site frame"],
  ["zM", "m, up in the site frame"],
  ["M", "m"],
  ["N", "N"],
];

/** Says beside every field and point what cannot be seen from its type. */
function describe(schema: Schema): void {
  const axes = (schema.prefixItems as unknown[] | undefined)?.length;
  if (axes === 3) schema.description = "[east, north, up] in the site frame, m";
  if (axes === 2) schema.description = "[east, north] in the site frame, m";
  for (const [name, field] of Object.entries((schema.properties ?? {}) as Record<string, Schema>)) {
    const says = isAmount(field) ? saysOf(name, field) : "";
    if (says !== "") field.description = says;
    describe(field);
  }
  for (const list of [schema.anyOf, schema.oneOf, schema.items])
    for (const part of [list ?? []].flat()) describe(part as Schema);
}

function saysOf(name: string, field: Schema): string {
  const unit = UNITS.find(([ending]) => name.endsWith(ending))?.[1];
  const missing = JSON.stringify(field).includes('"null"')
    ? "null: not given, and what rests on it is unknown"
    : undefined;
  return [unit, missing].filter((part) => part !== undefined).join("; ");
}

/** A number, a list of numbers, or a limit with its source. */
function isAmount(field: Schema): boolean {
  const { type, items, anyOf, properties } = field as {
    readonly type?: string;
    readonly items?: Schema;
    readonly anyOf?: readonly Schema[];
    readonly properties?: Readonly<Record<string, Schema>>;
  };
  if (type === "number" || anyOf?.some(isAmount)) return true;
  if (type === "array") return items !== undefined && items.type === "number";
  return properties?.value !== undefined && properties.source !== undefined && isAmount(properties.value);
}
