import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** Where a value comes from, and how it was seen: in the text itself, in a secondary source, or from memory. */
export interface Source {
  readonly document: string;
  /** Edition, section, page or exercise. */
  readonly where: string;
  readonly seen: "read" | "secondary" | "memory" | "computed";
}

/** How far an answer may lie from what is expected: by a number, or by a part of it. */
export type Tolerance = { readonly absolute: number } | { readonly relative: number };

export interface Expected {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
  /** Where it differs from the case's own. */
  readonly tolerance?: Tolerance;
  readonly toleranceReason?: string;
}

/** A published or worked value that the product is held to. */
export interface ValidationCase {
  readonly id: string;
  readonly title: string;
  readonly source: Source;
  readonly kind: string;
  readonly inputs: Inputs;
  readonly expected: readonly Expected[];
  readonly tolerance: Tolerance;
  readonly toleranceReason: string;
  /** The identity, in words, that the expected value itself is held to first. */
  readonly audit: string;
  /** What the answer cannot say of the case, to stand beside it. */
  readonly beyond?: string;
  /** Set where the published value fails its audit: why it is wrong. The product must not meet it. */
  readonly misprint?: string;
}

export interface CaseGroup {
  readonly title: string;
  /** Which physical question, and how the product is asked it. */
  readonly about: string;
  readonly cases: readonly ValidationCase[];
}

export type Inputs = Readonly<Record<string, unknown>>;

/** A number a case must give; a slip in the file throws. */
export function numberIn(inputs: Inputs, name: string): number {
  const value = inputs[name];
  if (typeof value !== "number" || !Number.isFinite(value)) throw new Error(`the case gives no number "${name}"`);
  return value;
}

/** A list of numbers a case must give. */
export function numbersIn(inputs: Inputs, name: string): readonly number[] {
  const value = inputs[name];
  if (!Array.isArray(value) || !value.every(Number.isFinite)) throw new Error(`the case gives no numbers "${name}"`);
  return value as readonly number[];
}

/** A list of further inputs a case must give. */
export function listIn(inputs: Inputs, name: string): readonly Inputs[] {
  const value = inputs[name];
  if (!Array.isArray(value)) throw new Error(`the case gives no list "${name}"`);
  return value as readonly Inputs[];
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;
export const degrees = (rad: number): number => (rad * 180) / Math.PI;

export const toleranceOf = (wanted: ValidationCase, { tolerance }: Expected): Tolerance =>
  tolerance ?? wanted.tolerance;

/** The allowed distance from an expected value, in its own unit. */
export function allowedOf(wanted: ValidationCase, expected: Expected): number {
  const tolerance = toleranceOf(wanted, expected);
  return "absolute" in tolerance ? tolerance.absolute : tolerance.relative * Math.abs(expected.value);
}

const FOLDER = fileURLToPath(new URL("cases", import.meta.url));

/** Every group of cases, in the order of their files' names. What a group gives holds for each of its cases that does not say otherwise. */
export function loadGroups(): readonly CaseGroup[] {
  const files = readdirSync(FOLDER).filter((file) => file.endsWith(".json"));
  return files.sort().map((file) => {
    const { title, about, defaults = {}, cases } = JSON.parse(readFileSync(join(FOLDER, file), "utf8"));
    return { title, about, cases: cases.map((one: object) => ({ ...defaults, ...one })) };
  });
}
