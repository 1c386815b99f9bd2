import type { SiteVector } from "@gantline/engine";
import type { Check, Clearance, Evaluation } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { STATUS_SIGN, STATUS_TONE } from "./status-sign.ts";
import type { Write } from "./write.ts";

type Project = (p: SiteVector) => WorldPoint;

/** Clearances wider than this many times their limit are left to the ledger. */
const WORTH_SHOWING = 4;

/**
 * The tightest clearance of each kind as a witness line with its figure, its limit and its status.
 * The line is the true one seen from this side, so it may be drawn shorter than its figure.
 * @param bare a moment with nothing on the ropes: only what the ladder comes near
 */
export function drawClearances(
  evaluation: Evaluation,
  project: Project,
  write: Write,
  bare: boolean,
): readonly Primitive[] {
  const { clearances } = evaluation;
  return tightestOfEachKind(bare ? clearances.filter((c) => c.kind === "ladder") : clearances).flatMap(
    (c): Primitive[] => {
      const check = checkOf(evaluation, c);
      const status = check?.status ?? "unknown";
      const subject = check?.subject ?? `${c.what} to ${c.toWhat}`;
      const tone = STATUS_TONE[status];
      const [a, b] = [project(c.a), project(c.b)];
      const at: WorldPoint = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const figure = c.touching ? "touching" : write(c.distanceM, "length");
      const limit = c.requiredM === null ? "limit unknown" : `at least ${write(c.requiredM, "length")}`;
      return [
        {
          kind: "path",
          points: [a, b],
          closed: false,
          style: { stroke: tone, widthPx: 1.6 },
          title: `${subject}: ${figure}, ${limit}`,
        },
        { kind: "circle", at: a, radiusPx: 2.4, style: { fill: tone } },
        { kind: "circle", at: b, radiusPx: 2.4, style: { fill: tone } },
        {
          kind: "text",
          at,
          text: status === "within" ? `${subject} ${figure}` : `${subject} ${figure}: ${status}, ${limit}`,
          align: "start",
          offsetPx: [9, -6],
          sizePx: status === "within" ? 11 : 12,
          tone,
          sign: STATUS_SIGN[status],
          halo: true,
          ...(status === "within" ? {} : { weight: "strong" as const }),
          label: { priority: status === "within" ? 34 : 88, keep: status !== "within" },
        },
      ];
    },
  );
}

/** Least room over the limit, of each kind; those far off are left out. */
function tightestOfEachKind(clearances: readonly Clearance[]): readonly Clearance[] {
  const tightest = new Map<Clearance["kind"], Clearance>();
  for (const c of clearances) {
    const held = tightest.get(c.kind);
    if (!held || spare(c) < spare(held)) tightest.set(c.kind, c);
  }
  return [...tightest.values()].filter((c) => spare(c) < WORTH_SHOWING);
}

/** Distance over limit; what touches comes first, then what has no limit. */
const spare = (c: Clearance): number =>
  c.touching ? -1 : c.requiredM === null ? 0 : c.requiredM > 0 ? c.distanceM / c.requiredM : c.distanceM;

/** What the ledger says of it; a clearance the ledger does not judge is unknown. */
const checkOf = (evaluation: Evaluation, c: Clearance): Check | undefined =>
  evaluation.ledger.find((check) => check.id.endsWith(`/${c.id}`));
