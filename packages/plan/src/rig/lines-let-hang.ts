import { distance, type SiteVector } from "@gantline/engine";
import type { GearOf } from "../schema/gear.ts";
import type { HeldThere } from "./held-there.ts";
import type { LaidMain, LaidRig, LaidTether } from "./lay-lines.ts";
import type { SetLength } from "./rig-state.ts";
import { type Floating, isRidden } from "./settle-rig.ts";

/** A line that keeps its length: with no tension in it, m, and its EA, N. */
export interface KeptLength {
  readonly lengthM: number;
  readonly stiffnessN: number;
}

/** What each line does while the load is let go: it keeps a length, or (a number) the pull of a hand, N. */
export interface LinesLetHang {
  readonly mains: readonly KeptLength[];
  readonly tags: readonly (KeptLength | number)[];
  readonly tether: KeptLength | number;
}

/** EA of a rope whose stiffness is not known, N: it is taken as hardly stretching, so that unequal lines share worst. */
const HARDLY_STRETCHES_N = 1e7;

/**
 * What does each line do while the load is let go from where it was wanted?
 *
 * Main lines, and whatever else is made fast at a length that is not given, keep the unstretched lengths that they have at the
 * wanted place with the pulls found there; lines of a set length have that; lines in hands keep their pulls.
 */
export function linesLetHang(
  rig: LaidRig,
  { floating, found: pulls }: HeldThere,
  set: readonly SetLength[],
): LinesLetHang {
  const { tether } = rig;
  const lengths = new Map(set.map((l) => [l.lineId, l.lengthM]));
  const measured = (pathM: number, tensionN: number, rope: LaidMain["rope"], parts = 1): KeptLength => {
    const stiffnessN = (rope?.staticStiffnessN ?? HARDLY_STRETCHES_N) * parts;
    return { lengthM: pathM / (1 + tensionN / stiffnessN), stiffnessN };
  };
  /** A line in hands where it keeps a length: what is set, else what it has at the wanted place. */
  const fast = ({ line, rope }: LaidRig["tags"][number] | LaidTether, to: SiteVector, tensionN: number) => {
    if (line.drive !== "length" && !lengths.has(line.id)) return null;
    const there = measured(distance(pulls.yoke, to), tensionN, rope, "parts" in line ? line.parts : 1);
    return { ...there, lengthM: lengths.get(line.id) ?? there.lengthM };
  };
  const tackle = tether && floating.rider ? fast(tether, floating.rider, pulls.tetherN) : null;
  const tetherN = tether?.line.drive === "tension" ? (tether.line.tensionN ?? 0) : pulls.tetherN;
  return {
    mains: rig.mains.map((m, i) => {
      const pathM = distance(pulls.yoke, floating.sheaves[i] ?? m.pointAt) + beyondM(rig, i, floating);
      return measured(pathM, pulls.mainsN[i] ?? 0, m.rope);
    }),
    tags: rig.tags.map((t, i) => {
      const pullN = pulls.tagsN[i] ?? 0;
      return fast(t, t.handsAt, pullN) ?? pullN;
    }),
    tether: tackle ?? tetherN,
  };
}

/** Length of the i-th main line from its tip sheave to its brake, m. */
export function beyondM(rig: LaidRig, i: number, { sheaves, rider }: Floating): number {
  const main = rig.mains[i];
  if (!main) return 0;
  let lengthM = 0;
  let from = sheaves[i] ?? main.pointAt;
  if (rider && isRidden(rig, main)) {
    lengthM += distance(from, rider);
    from = rider;
  }
  for (const { at } of main.anchors) {
    lengthM += distance(from, at);
    from = at;
  }
  return lengthM;
}

/** Ropes of what keeps its length whose stiffness is not known. */
export function ropesOfUnknownStiffness(
  { mains, tags, tether }: LaidRig,
  set: readonly SetLength[],
): readonly GearOf<"rope">[] {
  const fast = [...tags, ...(tether ? [tether] : [])].filter(
    ({ line }) => line.drive === "length" || set.some((l) => l.lineId === line.id),
  );
  return [...new Set([...mains, ...fast].flatMap(({ rope }) => (rope?.staticStiffnessN === null ? [rope] : [])))];
}
