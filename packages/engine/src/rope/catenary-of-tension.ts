import { distance, type SiteVector } from "../base/vector.ts";
import { formOfPull } from "./catenary-form.ts";
import { formOfTension } from "./catenary-form-of-tension.ts";
import { catenaryFailure, complianceOf, describeCatenary, isSoundRope, NO_WEIGHT } from "./catenary-hang.ts";
import { levelWay } from "./catenary-plane.ts";
import type { Catenary, CatenaryFailure, SaggingRope } from "./sagging-rope.ts";

/**
 * How much rope hangs between two points when one end is held with a given tension, as a tagline is by hand?
 *
 * Of the two lengths that fit the shorter is given, on which a little more rope eases the pull; the other no steady
 * hand can hold. The answer is the catenary of that length, its stiffness that of the rope made fast at it.
 *
 * @param a,b places of the ends, apart, site frame, m
 * @param heldAt the end whose tension is given
 * @param tensionN there, N, above 0
 * @returns `too-little-tension` where the rope's own weight would drag it down
 */
export function catenaryOfTension(
  rope: Omit<SaggingRope, "lengthM">,
  a: SiteVector,
  b: SiteVector,
  heldAt: "A" | "B",
  tensionN: number,
): Catenary | CatenaryFailure {
  const spanM = distance(a, b);
  if (!(spanM > 0 && isSoundRope({ ...rope, lengthM: tensionN }, a, b))) return catenaryFailure("bad-number");
  const { weightNM } = rope;
  const compliancePerN = complianceOf(rope);
  if (weightNM * spanM < NO_WEIGHT * tensionN) {
    const lengthM = spanM / (1 + tensionN * compliancePerN);
    return describeCatenary({ lengthM, compliancePerN, tensionN }, a, b);
  }
  const riseM = heldAt === "A" ? b[2] - a[2] : a[2] - b[2];
  const form = formOfTension(levelWay(a, b).lengthM, riseM, tensionN, weightNM, compliancePerN);
  if (form === null) return catenaryFailure("too-little-tension");
  const hanging = { lengthM: form.lengthM, weightNM, compliancePerN };
  const middleN = 0.5 * (form.upAtAN + form.upAtBN) * (heldAt === "A" ? 1 : -1);
  return describeCatenary({ hanging, form: formOfPull(hanging, form.levelN, middleN), pulls: true }, a, b);
}
