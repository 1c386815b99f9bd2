import { distance, type SiteVector } from "@gantline/engine";
import type { HeldThere } from "./held-there.ts";
import type { LaidRig, LaidTag, LaidTether } from "./lay-lines.ts";
import type { SetLength } from "./rig-state.ts";

/** So little longer or shorter than its tackle goes, it goes that far: rounding, m. */
const SAME_M = 1e-9;

/**
 * Taglines and tether that are made fast at a length that is given, with what they would have to be for the load to hang where
 * it is wanted. A tackle is made fast at no less and no more than it can be.
 *
 * @param there the balance at the wanted place, with such lines pulling as needed
 */
export function madeFast({ tags, tether }: LaidRig, { floating: { rider }, found }: HeldThere): readonly SetLength[] {
  const fast = (laid: LaidTag | LaidTether, to: SiteVector, pullN: number): readonly SetLength[] => {
    const { id, name, drive, lengthM } = laid.line;
    if (drive !== "length" || lengthM === null) return [];
    return [{ lineId: id, name, why: "madeFast", lengthM, neededM: neededM(laid, found.yoke, to, pullN), pullN }];
  };
  return [
    ...tags.flatMap((t, i) => fast(t, t.handsAt, found.tagsN[i] ?? 0)),
    ...(tether && rider ? fast(tether, rider, found.tetherN) : []),
  ].map((l) => (l.lineId === tether?.line.id ? { ...l, lengthM: withinTackle(tether, l.lengthM) } : l));
}

/**
 * The tackle of the tether, where it would be longer or shorter than it can be: at its end.
 *
 * @param now how the load hangs with a tackle of any length
 * @param there the balance at the wanted place
 */
export function tackleAtEnd({ tether }: LaidRig, now: HeldThere, there: HeldThere): SetLength | null {
  const { rider } = now.floating;
  if (!tether || !rider) return null;
  const { id, name } = tether.line;
  const isM = distance(now.found.yoke, rider);
  const lengthM = withinTackle(tether, isM);
  if (Math.abs(lengthM - isM) <= SAME_M) return null;
  const pullN = there.found.tetherN;
  const wanted = there.floating.rider ?? rider;
  return {
    lineId: id,
    name,
    why: lengthM < isM ? "runOut" : "drawnTogether",
    lengthM,
    neededM: neededM(tether, there.found.yoke, wanted, pullN),
    pullN,
  };
}

/** The tether drawn together as far as it goes, where no length of it holds the load where it is wanted. */
export const drawnTogether = ({ line: { id, name, lengthMinM } }: LaidTether): SetLength => ({
  lineId: id,
  name,
  why: "drawnTogether",
  lengthM: lengthMinM,
  neededM: null,
  pullN: 0,
});

const withinTackle = ({ line }: LaidTether, lengthM: number): number =>
  Math.max(line.lengthMinM, Math.min(line.lengthMaxM, lengthM));

function neededM({ line, rope }: LaidTag | LaidTether, yoke: SiteVector, to: SiteVector, pullN: number): number | null {
  const stiffnessN = rope?.staticStiffnessN ?? null;
  const parts = "parts" in line ? line.parts : 1;
  return stiffnessN === null ? null : distance(yoke, to) / (1 + pullN / (stiffnessN * parts));
}
