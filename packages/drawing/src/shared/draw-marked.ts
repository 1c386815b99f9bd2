import type { SiteVector } from "@gantline/engine";
import { type Check, holdsWithoutLoad } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { STATUS_SIGN, STATUS_TONE, statusWords } from "./status-sign.ts";
import { shortened } from "./write.ts";

/** Wider than the ring of a handle, so that both are seen where both are, px. */
const RING_PX = 21;

/** A broken ring round the place of the one check that is asked about, with its name and how it stands. A check with no place has none. */
export function drawMarked(
  check: Check | null | undefined,
  project: (p: SiteVector) => WorldPoint,
  bare: boolean,
): readonly Primitive[] {
  if (!check?.at || (bare && check.rule !== "stage" && !holdsWithoutLoad(check))) return [];
  const at = project(check.at);
  const tone = STATUS_TONE[check.status];
  const words = `${shortened(check.subject, 60)}: ${statusWords(check)}`;
  return [
    { kind: "circle", at, radiusPx: RING_PX, style: { stroke: "paper", widthPx: 7 } },
    { kind: "circle", at, radiusPx: RING_PX, style: { stroke: tone, widthPx: 3.4, dash: "dashed" }, title: words },
    {
      kind: "text",
      at,
      text: words,
      align: "start",
      offsetPx: [RING_PX + 5, -RING_PX + 2],
      sizePx: 13,
      weight: "strong",
      tone,
      sign: STATUS_SIGN[check.status],
      halo: true,
      label: { priority: 100, keep: true },
    },
  ];
}
