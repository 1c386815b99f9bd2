import { distance, type SiteVector } from "@gantline/engine";
import type { RigState } from "../rig/rig-state.ts";
import type { Anchorage } from "../schema/rig.ts";
import type { LetGoChoices } from "./let-go-plan-types.ts";
import type { PathPart } from "./path-part.ts";

/** Anchors nearer to each other than this count as one: what breaks one takes the other. Planning choice, no source. */
export const ONE_ANCHOR_M = 0.2;

type Lost = NonNullable<LetGoChoices["lost"]>[number];

/** What one line hangs on an anchor by. */
interface Use {
  readonly lineId: string;
  readonly subject: string;
  /** Eye of the vehicle; null: a place on the ground or a structure. */
  readonly eye: string | null;
  readonly at: SiteVector;
  /** null: the line ends there and goes with it. */
  readonly lost: Lost | null;
}

/** Every anchor once, with all that hangs on it. Eyes of the vehicle are told apart by name, all else by distance. */
export function anchorParts(state: RigState): readonly PathPart[] {
  return clustered(usesOf(state)).map((uses): PathPart => {
    const cut = uses.flatMap((u) => (u.lost === null ? [u.lineId] : []));
    const [first] = uses;
    return {
      id: idOf(first),
      subject: `Anchor of ${uses.map((u) => u.subject).join("; ")}`,
      kind: "anchor",
      at: first.at,
      lines: [...new Set(uses.map((u) => u.lineId))],
      unavoidable: false,
      effect: {
        kind: "goes",
        cut,
        lost: uses.flatMap((u) => (u.lost === null || cut.includes(u.lineId) ? [] : [u.lost])),
      },
    };
  });
}

const idOf = ({ eye, at }: Use): string =>
  eye === null ? `anchor/ground.${at.map((x) => Math.round(100 * x)).join(".")}` : `anchor/${eye}`;

/** Redirects and brakes of the main lines, and where taglines are made fast. */
const usesOf = ({ mains, tags }: RigState): readonly Use[] => [
  ...mains.flatMap(({ laid: { line, anchors, pointAt } }) => {
    const use = (name: string, anchorage: Anchorage, place: number, lost: Lost | null): Use => ({
      lineId: line.id,
      subject: `${line.name}, ${name.toLowerCase()}`,
      eye: anchorage.on === "vehicle" ? anchorage.anchorId : null,
      at: anchors[place]?.at ?? pointAt,
      lost,
    });
    return [
      ...line.redirects.map((r, k) => use(r.name, r.anchorage, k, { lineId: line.id, placeId: r.id })),
      use("Brake", line.brake.anchorage, line.redirects.length, null),
    ];
  }),
  ...tags
    .filter(({ laid }) => laid.line.drive === "length")
    .map(
      ({ laid: { line, handsAt } }): Use => ({
        lineId: line.id,
        subject: `${line.name}, made fast`,
        eye: null,
        at: handsAt,
        lost: null,
      }),
    ),
];

type Cluster = [Use, ...Use[]];

/** All that is one with any member is one with all. */
function clustered(uses: readonly Use[]): readonly Cluster[] {
  const found: Cluster[] = [];
  for (const use of uses) {
    const [first, ...others] = found.filter((cluster) => cluster.some((known) => isOne(known, use)));
    if (first === undefined) {
      found.push([use]);
      continue;
    }
    first.push(...others.flat(), use);
    for (const other of others) found.splice(found.indexOf(other), 1);
  }
  return found;
}

const isOne = (a: Use, b: Use): boolean =>
  a.eye !== null && b.eye !== null ? a.eye === b.eye : distance(a.at, b.at) <= ONE_ANCHOR_M;
