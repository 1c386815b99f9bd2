import { distance, norm, type SiteVector, scale, site, subtract, ZERO } from "../base/vector.ts";
import { type CatenaryForm, formOfSpan, type HangingRope, stiffnessOfForm } from "./catenary-form.ts";
import { levelWay, stiffnessInSite } from "./catenary-plane.ts";
import { lowestAlong, sagOfForm, stretchedOfForm, wayAlong } from "./catenary-way.ts";
import type { Catenary, CatenaryFailure, SaggingRope } from "./sagging-rope.ts";

/** A rope that hangs in a catenary; one with no weight to speak of, slack, has its shape but does not pull. */
export interface Hung {
  readonly hanging: HangingRope;
  readonly form: CatenaryForm;
  readonly pulls: boolean;
}

/** A taut rope with no weight to speak of. */
export interface Straight {
  readonly lengthM: number;
  readonly compliancePerN: number;
  readonly tensionN: number;
}

/** A weight, N/m, or a share of weight in tension, far below all rounding. */
export const NO_WEIGHT = 1e-90;

/** How a rope of known length hangs between two points. */
export function hangBetween(rope: SaggingRope, a: SiteVector, b: SiteVector): Hung | Straight | CatenaryFailure {
  if (!isSoundRope(rope, a, b)) return catenaryFailure("bad-number");
  const { lengthM, axialStiffnessN, weightNM } = rope;
  const spanM = distance(a, b);
  if (axialStiffnessN === null && spanM >= lengthM) return catenaryFailure("too-short");
  const compliancePerN = complianceOf(rope);
  const pulls = weightNM >= NO_WEIGHT;
  if (!pulls && spanM > lengthM) {
    return { lengthM, compliancePerN, tensionN: (spanM - lengthM) / (lengthM * compliancePerN) };
  }
  const hanging = pulls ? { lengthM, weightNM, compliancePerN } : { lengthM, weightNM: 1, compliancePerN: 0 };
  return { hanging, form: formOfSpan(hanging, levelWay(a, b).lengthM, b[2] - a[2]), pulls };
}

/** All there is to tell of a rope that hangs so; a failure where numbers put in were so large or small that some of these are none. */
export function describeCatenary(hang: Hung | Straight, a: SiteVector, b: SiteVector): Catenary | CatenaryFailure {
  const told = "form" in hang ? describeHung(hang, a, b) : describeStraight(hang, a, b);
  const { stiffnessNM, ...others } = told;
  const endless = stiffnessNM?.includes(Number.POSITIVE_INFINITY) ?? false;
  const numbers = [...Object.values(others), endless ? [] : stiffnessNM].flat();
  if (!numbers.every((value) => value === true || Number.isFinite(value))) return catenaryFailure("bad-number");
  return endless ? { ...others, stiffnessNM: null } : told;
}

function describeStraight({ lengthM, compliancePerN, tensionN }: Straight, a: SiteVector, b: SiteVector): Catenary {
  const spanM = distance(a, b);
  const forceOnAN = scale(subtract(b, a), tensionN / spanM);
  const e = subtract(b, a).map((c) => c / spanM);
  const turning = tensionN / spanM;
  const along = 1 / (lengthM * compliancePerN) - turning;
  return {
    ok: true,
    lengthM,
    stretchedM: spanM,
    forceOnAN,
    forceOnBN: scale(forceOnAN, -1),
    tensionAN: tensionN,
    tensionBN: tensionN,
    sagM: 0,
    lowest: a[2] <= b[2] ? a : b,
    stiffnessNM: e.flatMap((ei, i) => e.map((ej, j) => along * ei * ej + (i === j ? turning : 0))),
  };
}

function describeHung(hang: Hung, a: SiteVector, b: SiteVector): Catenary {
  const { hanging, form, pulls } = hang;
  const way = levelWay(a, b);
  const halfN = 0.5 * hanging.weightNM * hanging.lengthM;
  const forceOn = (toward: 1 | -1): SiteVector =>
    pulls
      ? site(toward * form.levelN * way.east, toward * form.levelN * way.north, toward * form.middleN - halfN)
      : ZERO;
  const forceOnAN = forceOn(1);
  const forceOnBN = forceOn(-1);
  return {
    ok: true,
    lengthM: hanging.lengthM,
    stretchedM: stretchedOfForm(hanging, form),
    forceOnAN,
    forceOnBN,
    tensionAN: norm(forceOnAN),
    tensionBN: norm(forceOnBN),
    sagM: sagOfForm(hanging, form, b[2] - a[2]),
    lowest: placeAlong(hang, a, b, lowestAlong(hanging, form)),
    stiffnessNM: pulls ? stiffnessInSite(stiffnessOfForm(hanging, form), way) : Array<number>(9).fill(0),
  };
}

/** Place on a hung rope at an unstretched distance from A. */
export function placeAlong({ hanging, form }: Hung, a: SiteVector, b: SiteVector, alongM: number): SiteVector {
  if (alongM <= 0) return a;
  if (alongM >= hanging.lengthM) return b;
  const { east, north } = levelWay(a, b);
  const { levelM, riseM } = wayAlong(hanging, form, alongM);
  return site(a[0] + levelM * east, a[1] + levelM * north, a[2] + riseM);
}

export const complianceOf = ({ axialStiffnessN }: Pick<SaggingRope, "axialStiffnessN">): number =>
  axialStiffnessN === null ? 0 : 1 / axialStiffnessN;

export const isSoundRope = (
  { lengthM, axialStiffnessN, weightNM }: SaggingRope,
  a: SiteVector,
  b: SiteVector,
): boolean =>
  lengthM > 0 &&
  weightNM >= 0 &&
  (axialStiffnessN === null || axialStiffnessN > 0) &&
  [lengthM, weightNM, axialStiffnessN ?? 1, ...a, ...b].every(Number.isFinite);

const HINTS: Readonly<Record<CatenaryFailure["code"], string>> = {
  "bad-number":
    "Length, stiffness and tension must be above 0, weight 0 or more, the ends apart, and none of them beyond reckoning.",
  "too-short": "The rope does not stretch and is no longer than the way between its ends.",
  "too-little-tension": "So little tension cannot hold up the rope's own weight. Pull harder, or shorten the way.",
};

export const catenaryFailure = (code: CatenaryFailure["code"]): CatenaryFailure => ({
  ok: false,
  code,
  where: "rope",
  hint: HINTS[code],
});
