const DEG = Math.PI / 180;
/** Where the load begins to be held is found to within this, rad. */
const WITHIN_RAD = 0.25 * DEG;
/** Neighbours held on both sides are worked out as one if they lie no farther apart than this, rad. */
const ALIKE_RAD = 20 * DEG;

export interface HeldBearing {
  readonly bearingRad: number;
  /** The bearing whose figures it shares; `null` where the load is not held. */
  readonly like: number | null;
}

/**
 * On which bearings is a load held? Those given, and those of ways it is drawn in on that lie between them; between a bearing that
 * holds and a neighbour that does not, the last that does and the first that does not. Rising.
 *
 * @param bearingsRad rising, within one turn; one alone stands for all round, and stays alone if it holds and no way is given
 */
export function bearingsHeld(
  bearingsRad: readonly number[],
  waysRad: readonly number[],
  holds: (bearingRad: number) => boolean,
): readonly HeldBearing[] {
  const from = bearingsRad[0] ?? 0;
  const to = bearingsRad.at(-1) ?? from;
  const alone = to - from < WITHIN_RAD;
  const within = waysRad.flatMap((way) => {
    const turned = from + ((((way - from) % TURN_RAD) + TURN_RAD) % TURN_RAD);
    return alone || turned <= to ? [turned] : [];
  });
  const sorted = [...new Set([...bearingsRad, ...within])].sort((a, b) => a - b);
  const looked = sorted.map((bearingRad) => ({ bearingRad, held: holds(bearingRad) }));
  const all: { readonly bearingRad: number; readonly held: boolean }[] = [];
  for (const [i, now] of looked.entries()) {
    const before = looked[i - 1];
    if (before && before.held !== now.held) {
      let [held, not] = now.held ? [now.bearingRad, before.bearingRad] : [before.bearingRad, now.bearingRad];
      while (Math.abs(held - not) > WITHIN_RAD) {
        const middle = (held + not) / 2;
        if (holds(middle)) held = middle;
        else not = middle;
      }
      const edges = [
        { bearingRad: held, held: true },
        { bearingRad: not, held: false },
      ].filter((e) => e.bearingRad !== before.bearingRad && e.bearingRad !== now.bearingRad);
      all.push(...edges.sort((a, b) => a.bearingRad - b.bearingRad));
    }
    all.push(now);
  }
  return shared(all, within);
}

const TURN_RAD = 2 * Math.PI;

/** Held bearings side by side within a narrow span share the figures of one: of a way, or else of the middle one. */
function shared(
  all: readonly { readonly bearingRad: number; readonly held: boolean }[],
  waysRad: readonly number[],
): readonly HeldBearing[] {
  const groups: { bearingRad: number; held: boolean }[][] = [];
  for (const one of all) {
    const last = groups.at(-1);
    const first = last?.[0];
    if (last && first && one.held && first.held && one.bearingRad - first.bearingRad <= ALIKE_RAD) last.push(one);
    else groups.push([one]);
  }
  return groups.flatMap((group) => {
    const of = group.find((g) => waysRad.includes(g.bearingRad)) ?? group[group.length >> 1];
    return group.map(({ bearingRad, held }) => ({ bearingRad, like: held ? (of?.bearingRad ?? bearingRad) : null }));
  });
}
