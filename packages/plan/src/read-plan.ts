import type { InputProblem } from "@gantline/engine";
import * as z from "zod/mini";
import { MIGRATIONS } from "./migrations/all-migrations.ts";
import { repeatedNames } from "./repeated-names.ts";
import { PLAN_FORMAT, PLAN_VERSION, type Plan, planSchema } from "./schema/plan.ts";
import { quantityOfField } from "./units/quantity.ts";

export type ReadPlan =
  | { readonly ok: true; readonly plan: Plan; readonly migratedFrom: number | null }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/** More problems than this in one file help nobody. */
const MOST_PROBLEMS = 50;

/**
 * Is this a plan, and if not, what is wrong with it?
 *
 * Takes parsed JSON. A file of an older version is migrated step by step; one of a newer version is refused with both
 * versions named. Nothing is repaired or filled in. What a schema cannot see (references, outlines) is told by
 * `evaluate`, which opens such a plan and says so in the ledger.
 */
export function readPlan(json: unknown): ReadPlan {
  if (typeof json !== "object" || json === null || Array.isArray(json))
    return refuse("", describe(json), `an object with "format": "${PLAN_FORMAT}"`);
  const head = json as Record<string, unknown>;
  if (head.format !== PLAN_FORMAT) return refuse("format", describe(head.format), `"${PLAN_FORMAT}"`);
  const version = head.formatVersion;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return refuse("formatVersion", describe(version), `a whole number from 1 to ${PLAN_VERSION}`);
  if (version > PLAN_VERSION)
    return refuse(
      "formatVersion",
      `${version}, written by a newer build`,
      `${PLAN_VERSION} or less: this build reads plans up to version ${PLAN_VERSION}`,
    );
  let current: unknown = json;
  for (let from = version; from < PLAN_VERSION; from++) current = MIGRATIONS[from]?.(current) ?? current;
  const parsed = z.safeParse(planSchema, current);
  if (parsed.success) return { ok: true, plan: parsed.data, migratedFrom: version < PLAN_VERSION ? version : null };
  return {
    ok: false,
    problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, current)).slice(0, MOST_PROBLEMS),
  };
}

/** A plan from the text of a file. */
export function readPlanText(text: string): ReadPlan {
  try {
    const read = readPlan(JSON.parse(text));
    // A parser keeps the last of two fields of one name: what the other said would be lost.
    const repeated = repeatedNames(text);
    if (repeated.length === 0) return read;
    const problems = [...repeated, ...(read.ok ? [] : read.problems)].slice(0, MOST_PROBLEMS);
    return { ok: false, problems };
  } catch (error) {
    return refuse("", "text that is not JSON", `JSON (${error instanceof Error ? error.message : "not readable"})`);
  }
}

/** The plan as a file: what was put in, one field a line, ending in a newline. */
export const writePlanText = (plan: Plan): string => `${JSON.stringify(plan, null, 2)}\n`;

const refuse = (path: string, got: string, expected: string): ReadPlan => ({
  ok: false,
  problems: [{ path: path || "(file)", got, expected }],
});

type Issue = z.core.$ZodIssue;

function problemsOf(issue: Issue, root: unknown): InputProblem[] {
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => problem([...issue.path, key], root, "no field of this name"));
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    const nearest = [...issue.errors].sort((a, b) => a.length - b.length)[0] ?? [];
    if (nearest.length > 0)
      return nearest.flatMap((inner) => problemsOf({ ...inner, path: [...issue.path, ...inner.path] } as Issue, root));
  }
  return [problem(issue.path, root, expectation(issue))];
}

function problem(path: readonly PropertyKey[], root: unknown, expected: string): InputProblem {
  const written = pathText(path) || "(file)";
  const last = [...path].reverse().find((p) => typeof p === "string");
  const quantity = typeof last === "string" ? quantityOfField(last) : null;
  return {
    path: written,
    got: describe(valueAt(root, path)),
    expected,
    ...(quantity ? { unit: SI_UNIT[quantity] ?? "" } : {}),
  };
}

function expectation(issue: Issue): string {
  switch (issue.code) {
    case "invalid_type":
      return ARTICLE[issue.expected] ?? `a ${issue.expected}`;
    case "too_small":
      return issue.origin === "array"
        ? `at least ${issue.minimum} entries`
        : issue.origin === "string"
          ? `at least ${issue.minimum} characters`
          : `${issue.inclusive ? "at least" : "more than"} ${issue.minimum}`;
    case "too_big":
      return issue.origin === "array"
        ? `at most ${issue.maximum} entries`
        : issue.origin === "string"
          ? `at most ${issue.maximum} characters`
          : `${issue.inclusive ? "at most" : "less than"} ${issue.maximum}`;
    case "invalid_value":
      return `one of ${issue.values.map((v) => JSON.stringify(v)).join(", ")}`;
    case "invalid_format":
      return "letters, digits, dots, dashes and underscores, beginning with a letter";
    case "invalid_union":
      return "a known kind (see the schema)";
    default:
      return issue.message;
  }
}

const ARTICLE: Readonly<Record<string, string>> = {
  number: "a finite number",
  object: "an object",
  array: "a list",
  int: "a whole number",
  string: "text",
  boolean: "true or false",
  tuple: "a list of coordinates",
};

const SI_UNIT: Readonly<Partial<Record<NonNullable<ReturnType<typeof quantityOfField>>, string>>> = {
  length: "m",
  diameter: "m",
  force: "N",
  mass: "kg",
  angle: "rad",
  speed: "m/s",
  pressure: "Pa",
  area: "m²",
  voltage: "kV",
  linearMass: "kg/m",
  stiffness: "N",
  bendingStiffness: "N·m²",
};

export const pathText = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, key) => (typeof key === "number" ? `${text}[${key}]` : text === "" ? String(key) : `${text}.${String(key)}`),
    "",
  );

const valueAt = (root: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    root,
  );

function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  const text = typeof value === "number" ? String(value) : (JSON.stringify(value) ?? String(value));
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
