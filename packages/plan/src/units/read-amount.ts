import {
  DEGREE_RAD,
  ENTRY_UNIT,
  FOOT_M,
  INCH_M,
  KNOT_MS,
  MILE_PER_HOUR_MS,
  POUND_FORCE_N,
  POUND_KG,
  type Quantity,
  type UnitSystem,
} from "./quantity.ts";

/** `null`: the writer says it is not known. `problem` is one plain sentence: what was got, and what is expected. */
export type ReadAmount =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly problem: string };

/** A unit as people write it: what it is in SI, and which way of writing numbers goes with it. */
interface Unit {
  readonly words: readonly string[];
  readonly si: number;
  readonly system: UnitSystem | "both";
}

const unit = (si: number, system: Unit["system"], ...words: string[]): Unit => ({ words, si, system });
const FOOT_POUND_NM = POUND_FORCE_N * FOOT_M;
const POUND_PER_FOOT2_PA = POUND_FORCE_N / FOOT_M ** 2;
/** Standard gravity, for forces that people write in kilograms-force. CGPM 1901. */
const KILOGRAM_FORCE_N = 9.80665;

const LENGTHS: readonly Unit[] = [
  unit(1, "metric", "m", "metre", "metres", "meter", "meters"),
  unit(0.01, "metric", "cm"),
  unit(0.001, "metric", "mm"),
  unit(FOOT_M, "imperial", "ft", "'", "foot", "feet"),
  unit(INCH_M, "imperial", "in", '"', "inch", "inches"),
  unit(3 * FOOT_M, "imperial", "yd", "yard", "yards"),
];
const FORCES: readonly Unit[] = [
  unit(1000, "metric", "kn"),
  unit(1, "metric", "n"),
  unit(10, "metric", "dan"),
  unit(KILOGRAM_FORCE_N, "metric", "kgf"),
  unit(POUND_FORCE_N, "imperial", "lbf", "lb", "lbs"),
  unit(1000 * POUND_FORCE_N, "imperial", "kip", "kips", "klbf"),
];

/** Every unit that is understood; words are matched in lower case, with spaces and middle dots taken out. */
const UNITS: Readonly<Record<Quantity, readonly Unit[]>> = {
  length: LENGTHS,
  diameter: LENGTHS,
  force: FORCES,
  stiffness: FORCES,
  mass: [
    unit(1, "metric", "kg"),
    unit(0.001, "metric", "g"),
    unit(1000, "metric", "t"),
    unit(POUND_KG, "imperial", "lb", "lbs", "pound", "pounds"),
  ],
  angle: [unit(DEGREE_RAD, "both", "°", "deg", "degree", "degrees"), unit(1, "both", "rad")],
  speed: [
    unit(1, "metric", "m/s", "ms"),
    unit(1 / 3.6, "metric", "km/h", "kmh", "kph"),
    unit(MILE_PER_HOUR_MS, "imperial", "mph", "mi/h"),
    unit(FOOT_M, "imperial", "ft/s"),
    unit(KNOT_MS, "both", "kn", "kt", "kts", "knot", "knots"),
  ],
  moment: [
    unit(1000, "metric", "knm"),
    unit(1, "metric", "nm"),
    unit(FOOT_POUND_NM, "imperial", "lbfft", "ftlbf", "ftlb", "lbft"),
    unit(1000 * FOOT_POUND_NM, "imperial", "kipft"),
  ],
  pressure: [
    unit(1000, "metric", "kpa", "kn/m²"),
    unit(1, "metric", "pa"),
    unit(1e6, "metric", "mpa"),
    unit(1e5, "metric", "bar"),
    unit(POUND_PER_FOOT2_PA, "imperial", "psf", "lb/ft²", "lbf/ft²"),
    unit(144 * POUND_PER_FOOT2_PA, "imperial", "psi"),
  ],
  area: [
    unit(1, "metric", "m²", "sqm"),
    unit(1e-4, "metric", "cm²"),
    unit(FOOT_M ** 2, "imperial", "ft²", "sqft"),
    unit(INCH_M ** 2, "imperial", "in²", "sqin"),
  ],
  voltage: [unit(1, "both", "kv"), unit(0.001, "both", "v")],
  linearMass: [
    unit(0.001, "metric", "g/m"),
    unit(1, "metric", "kg/m"),
    unit(POUND_KG / (100 * FOOT_M), "imperial", "lb/100ft", "lbs/100ft"),
    unit(POUND_KG / FOOT_M, "imperial", "lb/ft"),
  ],
  bendingStiffness: [
    unit(1e6, "metric", "mnm²"),
    unit(1e3, "metric", "knm²"),
    unit(1, "metric", "nm²"),
    unit(1000 * POUND_FORCE_N * FOOT_M ** 2, "imperial", "kipft²"),
  ],
  ratio: [unit(1, "both", "x"), unit(0.01, "both", "%")],
  count: [],
  time: [unit(1, "both", "s", "sec"), unit(60, "both", "min")],
};

const EXAMPLE: Readonly<Record<Quantity, string>> = {
  length: "5.6 m, 560 cm or 18 ft 6 in",
  diameter: "12.5 mm or 1/2 in",
  force: "4.4 kN or 1000 lbf",
  mass: "136 kg or 300 lb",
  angle: "70°, 1:12 or 5 %",
  speed: "8 m/s, 25 mph or 12 kn",
  moment: "12 kN·m or 9000 lbf·ft",
  pressure: "200 kPa or 4000 psf",
  area: "0.8 m² or 8 ft²",
  voltage: "12 kV",
  linearMass: "76 g/m or 5 lb/100 ft",
  stiffness: "95 kN or 21000 lbf",
  bendingStiffness: "60 MN·m²",
  ratio: "0.7, 70 % or 10",
  count: "a whole number",
  time: "20 s or 2 min",
};

/**
 * What number did a person write?
 *
 * Understands units of either system whichever is in use (a bare number is taken in the field's own unit, see `ENTRY_UNIT`),
 * feet and inches together, fractions (`6 1/2 in`), a decimal comma, thousands, slopes (`1:12`, `5 %`) and a minus.
 * Empty, `?` and `unknown` are `null`: not known. A number that could be read two ways (`5,625 m`) is refused, not guessed.
 *
 * @param text as it was typed
 * @param quantity what the field measures
 * @param system the reader's unit system
 * @returns the value in SI, finite; or the problem in one plain sentence
 */
export function readAmount(text: string, quantity: Quantity, system: UnitSystem): ReadAmount {
  const tidy = tidied(text);
  if (tidy === "" || tidy === "?" || tidy === "unknown" || tidy === "not known") return { ok: true, value: null };
  const negative = tidy.startsWith("-");
  const body = (negative || tidy.startsWith("+") ? tidy.slice(1) : tidy).trim();
  const read = (quantity === "angle" ? readSlope(body) : null) ?? readTerms(body, quantity, system);
  if (typeof read === "string") return { ok: false, problem: `“${text.trim()}” ${read}` };
  if (!Number.isFinite(read)) return { ok: false, problem: `“${text.trim()}” is too large a number.` };
  return { ok: true, value: negative && read !== 0 ? -read : read };
}

const VULGAR: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/** One spelling for signs, spaces, primes, squares and fractions. */
function tidied(text: string): string {
  return text
    .replace(/[\u2212\u2013\u2010\u2011]/g, "-")
    .replace(/[\u2044\u2215]/g, "/")
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? sign}`)
    .replace(/''|[\u2033\u201d\u201c\u02ba]/g, '"')
    .replace(/[\u2032\u2019\u2018\u02b9]/g, "'")
    .replace(/[\u00ba\u02da]/g, "°")
    .replace(/[\u00b7\u22c5*]/g, "")
    .replace(/\u00d7/g, "x")
    .replace(/([a-z])\^?2(?!\d)/gi, "$1²")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}

/** `1:12`, `1 in 12` and `5 %` as angles, rad; null where it is not written so. */
function readSlope(body: string): number | null {
  const rise = /^(\d+(?:[.,]\d+)?)\s*(?::|in)\s*(\d+(?:[.,]\d+)?)$/.exec(body);
  if (rise) return Math.atan2(plain(rise[1]), plain(rise[2]));
  const grade = /^(\d+(?:[.,]\d+)?)\s*%$/.exec(body);
  return grade ? Math.atan(plain(grade[1]) / 100) : null;
}

const plain = (digits: string | undefined): number => Number((digits ?? "").replace(",", "."));

/** Thousands by spaces, a whole with a fraction, a fraction, or digits with points and commas. */
const NUMBER = /\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/])|(?:\d+[ -])?\d+ ?\/ ?\d+|[.,]?\d[\d.,]*/y;
const UNIT = / ?(?:lbs?\/100 ?ft|[^\d\s.,+-][^\d.,+-]*)?/y;
/** A dash may stand between feet and inches, as in `18'-6"`. */
const BETWEEN = / ?-?\.? ?/y;

/** One number with its unit, or several that add up (`18 ft 6 in`). A string is a problem, without its subject. */
function readTerms(body: string, quantity: Quantity, system: UnitSystem): number | string {
  const expected = `is not understood; write it as ${EXAMPLE[quantity]}.`;
  const terms: { digits: string; word: string }[] = [];
  for (let at = 0; at < body.length; ) {
    const between = terms.length > 0 ? take(BETWEEN, body, at) : "";
    const digits = take(NUMBER, body, at + between.length);
    if (digits === "") return expected;
    const word = take(UNIT, body, at + between.length + digits.length);
    terms.push({ digits, word: word.trim() });
    at += between.length + digits.length + word.length;
  }
  let total = 0;
  let last = Number.POSITIVE_INFINITY;
  for (const [index, { digits, word: written }] of terms.entries()) {
    const word = written === "" && /^(ft|')$/.test(terms[index - 1]?.word ?? "") ? "in" : written;
    if (word === "" && terms.length > 1) return expected;
    const unit = unitOf(word, quantity, system);
    if (unit === null)
      return word === ""
        ? expected
        : `has the unit “${word}”, which is not one for this; write it as ${EXAMPLE[quantity]}.`;
    // Several numbers add up only as feet and inches do: from large to small.
    if (unit.si >= last || (terms.length > 1 && UNITS[quantity].length < 3)) return expected;
    const number = readNumber(digits, unit.system === "both" ? system : unit.system);
    if (typeof number === "string") return number;
    if (number * unit.si > last * (1 - 1e-9))
      return `has ${digits} ${word}, which is not less than one of the unit before it; write it as ${EXAMPLE[quantity]}.`;
    last = unit.si;
    total += number * unit.si;
  }
  return terms.length === 0 ? expected : total;
}

function take(pattern: RegExp, text: string, at: number): string {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? "";
}

function unitOf(word: string, quantity: Quantity, system: UnitSystem): Unit | null {
  const key = word.replaceAll(" ", "");
  const entry = tidied(ENTRY_UNIT[quantity][system]).replaceAll(" ", "");
  if (key === "" && entry === "") return { words: [], si: 1, system: "both" };
  return UNITS[quantity].find((one) => one.words.includes(key === "" ? entry : key)) ?? null;
}

/** A number without sign or unit. A string is a problem, without its subject. */
function readNumber(digits: string, system: UnitSystem): number | string {
  const mixed = /^(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(digits);
  if (mixed) {
    const below = Number(mixed[3]);
    return below === 0 ? "divides by nothing." : Number(mixed[1] ?? 0) + Number(mixed[2]) / below;
  }
  if (/^\d{1,3}( \d{3})+([.,]\d+)?$/.test(digits)) return plain(digits.replaceAll(" ", ""));
  if (/^\d*\.?\d+$|^\d+\.$/.test(digits)) return Number(digits);
  if (/^\d{1,3}(,\d{3})+\.\d*$/.test(digits) || /^\d{1,3}(,\d{3}){2,}$/.test(digits))
    return Number(digits.replaceAll(",", ""));
  if (/^\d{1,3}(\.\d{3})+,\d+$/.test(digits) || /^\d{1,3}(\.\d{3}){2,}$/.test(digits))
    return plain(digits.replaceAll(".", ""));
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    if (system === "imperial") return Number(digits.replace(",", ""));
    return `could mean ${digits.replace(",", ".")} or ${digits.replace(",", "")}; write one of these.`;
  }
  if (/^\d*,\d+$/.test(digits)) return plain(digits);
  return "is not a number that can be read.";
}
