import { pathText } from "../read-plan.ts";

/** Where a value stands in a JSON document: keys and places in lists. */
export type JsonPath = readonly (string | number)[];

type Container = Record<string | number, unknown>;

const isContainer = (value: unknown): value is Container => typeof value === "object" && value !== null;

/** As a problem names it: `rig.mainLines[0].rope`. */
export const pathName = (path: JsonPath): string => pathText(path);

/** A plan is eight deep; a document nested on purpose is not followed all the way down. */
const DEEPEST = 12;

/** Every place in a document except its root, containers and leaves. */
export function pathsOf(value: unknown, under: JsonPath = []): readonly JsonPath[] {
  if (!isContainer(value) || under.length >= DEEPEST) return [];
  const keys: readonly (string | number)[] = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return keys.flatMap((key) => [[...under, key], ...pathsOf(value[key], [...under, key])]);
}

export function valueAt(document: unknown, path: JsonPath): unknown {
  return path.reduce<unknown>((value, key) => (isContainer(value) ? value[key] : undefined), document);
}

/** A copy that shares nothing with its original. */
export function copyOf<T>(value: T): T {
  if (Array.isArray(value)) return value.map(copyOf) as T;
  if (!isContainer(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, copyOf(inner)])) as T;
}

/** A copy with another value at one place. */
export function withValue<T>(document: T, path: JsonPath, value: unknown): T {
  const copy = copyOf(document);
  const holder = valueAt(copy, path.slice(0, -1));
  const key = path.at(-1);
  if (isContainer(holder) && key !== undefined)
    Object.defineProperty(holder, key, { value, writable: true, enumerable: true, configurable: true });
  return copy;
}
