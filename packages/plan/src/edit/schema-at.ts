import type * as z from "zod/mini";
import { planSchema } from "../schema/plan.ts";
import type { Phrase, Quantity } from "../units/quantity.ts";

export type Path = readonly (string | number)[];

/** What the schema says of one field. */
export interface FieldRule {
  /** What kind of value it is, in the schema's word: number, string, boolean, enum, tuple, array, object, union, record. */
  readonly type: string;
  /** May it be left out as not known? */
  readonly nullable: boolean;
  /** The words it may hold, for a field that is one of a few; else null. */
  readonly options: readonly string[] | null;
  /** Does the value fit? One plain sentence of what is expected, its numbers in the field's quantity; null where it fits. */
  readonly problem: (value: unknown, quantity: Quantity | null) => Phrase | null;
}

interface Def {
  readonly type: string;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly element?: Schema;
  readonly items?: readonly Schema[];
  readonly innerType?: Schema;
  readonly valueType?: Schema;
  readonly options?: readonly Schema[];
  readonly discriminator?: string;
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
}
type Schema = z.core.$ZodType & { readonly _zod: { readonly def: Def } };

/** `scene.structures[0].topZM`, or `aerial.jackReach["front.left"]`, as its steps. */
export function pathSteps(path: string): Path {
  return [...path.matchAll(/\["([^"]*)"\]|[^.[\]]+/g)].map(
    ([step, quoted]) => quoted ?? (/^\d+$/.test(step) ? Number(step) : step),
  );
}

/** The value at a path of a plan; undefined where there is none. */
export function valueAt(root: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, step) => (value as Record<string | number, unknown> | null | undefined)?.[step],
    root,
  );
}

/** The same document with one value changed; everything beside the path is shared with the old one. */
export function withValueAt<T>(root: T, path: Path, value: unknown): T {
  const [step, ...rest] = path;
  if (step === undefined) return value as T;
  const below = withValueAt(valueAt(root, [step]), rest, value);
  if (Array.isArray(root)) return root.map((one, index) => (index === step ? below : one)) as T;
  return { ...(root as object), [step]: below } as T;
}

/**
 * What may stand at a path of this plan? Null where the schema knows no such path.
 * The plan itself is asked which kind of gear or anchorage stands there, as these differ in their fields.
 */
export function ruleAt(plan: unknown, path: Path): FieldRule | null {
  const found = descend(planSchema as unknown as Schema, plan, path);
  if (found === null) return null;
  const nullable = found._zod.def.type === "nullable";
  const { type, entries, values } = bare(found)._zod.def;
  const options = entries !== undefined ? Object.values(entries) : values !== undefined ? values.map(String) : null;
  return { type, nullable, options, problem: (value, quantity) => firstProblem(found, value, quantity) };
}

function descend(schema: Schema, value: unknown, path: Path): Schema | null {
  const [step, ...rest] = path;
  if (step === undefined) return schema;
  const inner = chosen(bare(schema), value)?._zod.def;
  const next = inner?.shape?.[step] ?? inner?.element ?? inner?.items?.[Number(step)] ?? inner?.valueType;
  return next === undefined ? null : descend(next, valueAt(value, [step]), rest);
}

const bare = (schema: Schema): Schema =>
  schema._zod.def.innerType === undefined ? schema : bare(schema._zod.def.innerType);

/** Of several shapes told apart by one field, the one this value has. */
function chosen(schema: Schema, value: unknown): Schema | null {
  const { options, discriminator } = schema._zod.def;
  if (options === undefined || discriminator === undefined) return schema;
  const word = valueAt(value, [discriminator]);
  return options.find((one) => one._zod.def.shape?.[discriminator]?._zod.def.values?.includes(word)) ?? null;
}

function firstProblem(schema: Schema, value: unknown, quantity: Quantity | null): Phrase | null {
  const read = (schema as unknown as z.ZodMiniType).safeParse(value);
  const issue = read.error?.issues[0];
  return issue === undefined ? null : sentence(issue, quantity);
}

function sentence(issue: z.core.$ZodIssue, quantity: Quantity | null): Phrase {
  const number = (bound: number | bigint): Phrase[number] =>
    quantity === null ? String(bound) : { value: Number(bound), quantity };
  switch (issue.code) {
    case "too_small":
      if (issue.origin === "string") return ["Something must be written here."];
      if (issue.origin === "array") return [`At least ${issue.minimum} are needed.`];
      return ["It must be ", issue.inclusive ? "at least " : "more than ", number(issue.minimum), "."];
    case "too_big":
      if (issue.origin === "string") return [`At most ${issue.maximum} letters fit here.`];
      if (issue.origin === "array") return [`At most ${issue.maximum} fit here.`];
      return ["It must be ", issue.inclusive ? "at most " : "less than ", number(issue.maximum), "."];
    case "invalid_format":
      return ["It must begin with a letter and hold only letters, digits, dot, dash and underscore."];
    case "invalid_type":
      return [issue.expected === "int" ? "It must be a whole number." : "A value is needed here."];
    default:
      return ["This does not fit here."];
  }
}
