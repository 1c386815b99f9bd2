import { copyOf, type JsonPath, pathsOf, valueAt } from "./json-path.ts";
import { type SeededRandom, seededRandom } from "./seeded-random.ts";

/** A damaged plan: as the text of a file, or as what parsing one would give. */
export interface MutatedPlan {
  readonly text: string | null;
  readonly value: unknown;
  /** What was done, in order. */
  readonly done: readonly { readonly what: string; readonly at: JsonPath }[];
}

/** The places of each plan that was damaged before: finding them takes longer than the damage. */
const known = new WeakMap<object, readonly JsonPath[]>();
function placesOf(plan: object): readonly JsonPath[] {
  const places = known.get(plan) ?? pathsOf(plan);
  known.set(plan, places);
  return places;
}

type Holder = Record<string | number, unknown>;
type Change = (holder: Holder, key: string | number, random: SeededRandom, plan: object) => void;

const put = (holder: Holder, key: string | number, value: unknown): void => {
  Object.defineProperty(holder, key, { value, writable: true, enumerable: true, configurable: true });
};

const nested = (depth: number): unknown => {
  let value: unknown = 0;
  for (let i = 0; i < depth; i++) value = i % 2 === 0 ? [value] : { inner: value };
  return value;
};

const ODD_TEXT = [
  "",
  "\u0000",
  "é\u0301 \u202eright to left",
  "🪢".repeat(40),
  "\ud800",
  "__proto__",
  "constructor",
  "x".repeat(20_001),
  "0",
  "NaN",
  "-1e400",
];
const ODD_NUMBERS = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  1e308,
  -1e308,
  5e-324,
  1e-12,
  -0,
  0,
  1e15,
  -1e15,
  1e6,
  -1e5,
  1e5,
  -1,
  0.5,
  1,
  2 ** 53,
];
const ODD_VALUES: readonly unknown[] = [
  null,
  true,
  false,
  "text",
  7,
  [],
  {},
  [[]],
  [null],
  { on: "ground" },
  undefined,
];

/** Changes that a schema should mostly refuse. */
const HARD: Readonly<Record<string, Change>> = {
  delete: (holder, key) => {
    if (Array.isArray(holder)) holder.splice(Number(key), 1);
    else delete holder[key];
  },
  rename: (holder, key, random) => {
    if (Array.isArray(holder)) return;
    const value = holder[key];
    delete holder[key];
    put(holder, random.oneOf([`${key}_`, String(key).toUpperCase(), "__proto__", "toString", "ключ"]), value);
  },
  retype: (holder, key, random) => put(holder, key, random.oneOf(ODD_VALUES)),
  stringify: (holder, key) => put(holder, key, String(holder[key])),
  "odd number": (holder, key, random) => put(holder, key, random.oneOf(ODD_NUMBERS)),
  "odd text": (holder, key, random) => put(holder, key, random.oneOf(ODD_TEXT)),
  nest: (holder, key, random) => put(holder, key, nested(random.oneOf([1, 3, 2000]))),
  "repeat many times": (holder, key, random) => {
    const list = holder[key];
    if (Array.isArray(list) && list.length > 0)
      put(
        holder,
        key,
        Array.from({ length: random.oneOf([2, 13, 41, 700]) }, () => list[0]),
      );
  },
  "somewhere else": (holder, key, random, plan) =>
    put(holder, key, copyOf(valueAt(plan, random.oneOf(placesOf(plan))))),
};

/** Changes that keep the kind of a value, so that many plans still open and are worked out. */
const SOFT: Readonly<Record<string, Change>> = {
  "other number": (holder, key, random) => {
    const was = holder[key];
    if (typeof was !== "number") return;
    put(
      holder,
      key,
      random.oneOf([
        0,
        1,
        -was,
        was * 10,
        was / 10,
        was * random.fraction(),
        was + (random.fraction() - 0.5) * 20,
        1e5,
        -1e5,
        1e6,
        1e-9,
        Math.round(was) + 1,
        1e9,
        1e12,
        1e100,
        1e-100,
      ]),
    );
  },
  "not known": (holder, key) => put(holder, key, null),
  "other flag": (holder, key) => {
    if (typeof holder[key] === "boolean") put(holder, key, !holder[key]);
  },
  "other word": (holder, key, random, plan) => {
    if (typeof holder[key] !== "string") return;
    const words = placesOf(plan)
      .map((p) => valueAt(plan, p))
      .filter((v) => typeof v === "string" && v.length < 24);
    put(
      holder,
      key,
      random.oneOf([
        ...words,
        "position",
        "length",
        "raise",
        "lower",
        "asNeeded",
        "tension",
        "basket",
        "choker",
        "platform",
        "none-such",
      ]),
    );
  },
  "one more": (holder, key, random) => {
    const list = holder[key];
    if (Array.isArray(list) && list.length > 0)
      list.splice(random.below(list.length + 1), 0, copyOf(random.oneOf(list)));
  },
  "one less": (holder, key, random) => {
    const list = holder[key];
    if (Array.isArray(list) && list.length > 0) list.splice(random.below(list.length), 1);
  },
  swap: (holder, key, random) => {
    const list = holder[key];
    if (!Array.isArray(list) || list.length < 2) return;
    const [a, b] = [random.below(list.length), random.below(list.length)];
    [list[a], list[b]] = [list[b], list[a]];
  },
};

/** Damages the text of a file. */
const TEXT: Readonly<Record<string, (text: string, random: SeededRandom) => string>> = {
  truncate: (text, random) => text.slice(0, random.below(text.length)),
  "drop a character": (text, random) => {
    const at = random.below(text.length);
    return text.slice(0, at) + text.slice(at + 1);
  },
  "put in characters": (text, random) => {
    const at = random.below(text.length);
    return (
      text.slice(0, at) +
      random.oneOf(["\u0000", "\ufeff", ",", "}", "]", '"', "1e999", "\\u12", "NaN", "/* */", "\ud83e"]) +
      text.slice(at)
    );
  },
  "nest deep": (text, random) => {
    const depth = random.oneOf([50, 5000]);
    return "[".repeat(depth) + text + "]".repeat(depth);
  },
  "number too large": (text) => text.replace(/: \d+(\.\d+)?/, ": 1e999"),
  "twice the file": (text) => text + text,
};

/** A plan changed in one to six places. The same seed gives the same damage. */
export function mutatePlan(plan: object, seed: number): MutatedPlan {
  const random = seededRandom(seed);
  const style = random.below(10);
  if (style === 0) {
    const what = random.oneOf(Object.keys(TEXT));
    return {
      text: TEXT[what]?.(JSON.stringify(plan, null, 2), random) ?? "",
      value: undefined,
      done: [{ what, at: [] }],
    };
  }
  const changes = style <= 3 ? HARD : SOFT;
  const times = style === 1 ? 1 : 1 + random.below(6);
  const document = copyOf(plan);
  const done: { what: string; at: JsonPath }[] = [];
  for (let i = 0; i < times; i++) {
    const what = random.oneOf(Object.keys(changes));
    const at = random.oneOf(placesOf(plan));
    const holder = valueAt(document, at.slice(0, -1));
    const key = at.at(-1);
    if (typeof holder !== "object" || holder === null || key === undefined) continue;
    changes[what]?.(holder as Holder, key, random, plan);
    done.push({ what, at });
  }
  return { text: null, value: document, done };
}
